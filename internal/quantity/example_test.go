package quantity_test

import (
	"fmt"

	"rimward/internal/quantity"
)

func ExampleParseLength() {
	width, err := quantity.ParseLength("2 7/8 in", quantity.InMillimetres)
	fmt.Println(width, err)
	_, err = quantity.ParseLength("73 g", quantity.InMillimetres)
	fmt.Println(err)
	// Output:
	// 73 mm <nil>
	// Write a length such as 73, 7.3 cm or 2 7/8 in.
}

func ExampleParseVolume() {
	_, err := quantity.ParseVolume("8 oz", quantity.InMillilitres)
	fmt.Println(err)
	// Output: An ounce is a mass. For a volume write fl oz (US fluid ounces) or mL.
}

func ExampleUnits_ShowLength() {
	width := quantity.Millimetres(73.025)
	fmt.Println(quantity.Metric.ShowLength(width))
	fmt.Println(quantity.Imperial.ShowLength(width))
	// Output:
	// 73 mm
	// 2 7/8 in
}

func ExampleUnits_ShowTemperatureDifference() {
	apart := quantity.Celsius(10)
	fmt.Println(quantity.Imperial.ShowTemperature(apart), "as a point")
	fmt.Println(quantity.Imperial.ShowTemperatureDifference(apart), "as a difference")
	// Output:
	// 50 °F as a point
	// 18 °F as a difference
}

func ExampleHours_Clock() {
	fmt.Println(quantity.Hours(0.8).Clock(), quantity.Hours(2.2).Clock())
	// Output: 48 min 2 h 12
}

// Quantities of different kinds are different types: adding a mass to a length
// does not compile, and a bare number has to be given its unit.
func Example() {
	before, after := quantity.Grams(182.4), quantity.Grams(163.2)
	fmt.Println("burned", before-after)
	// fmt.Println(before - quantity.Millimetres(6)) // mismatched types Grams and Millimetres
	// Output: burned 19.2 g
}
