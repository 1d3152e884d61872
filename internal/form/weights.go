package form

import (
	"regexp"
	"strconv"
	"strings"
)

// weighted is one value with its weight in brackets.
var weighted = regexp.MustCompile(`^([0-9]*[.,]?[0-9]+)\s*(?:%|mm)?\s*\(\s*([0-9]*[.,]?[0-9]+)\s*%?\s*\)$`)

// plainNumber is one value, perhaps with a unit.
var plainNumber = regexp.MustCompile(`^([0-9]*[.,]?[0-9]+)\s*(?:%|mm|per hour|/h)?$`)

// Weights reads one number, or values each with its weight in brackets parted
// by commas or semicolons: 2.5 (25), 4 (45). The numbers come as value,
// weight, value, weight; ok is false when the text is neither.
func Weights(text string) (numbers []float64, ok bool) {
	text = strings.TrimSpace(text)
	if m := plainNumber.FindStringSubmatch(text); m != nil {
		n, err := decimal(m[1])
		return []float64{n}, err == nil
	}
	for _, part := range strings.SplitAfter(text, ")") {
		part = strings.Trim(part, " ,;\t")
		if part == "" {
			continue
		}
		m := weighted.FindStringSubmatch(part)
		if m == nil {
			return nil, false
		}
		value, err := decimal(m[1])
		weight, err2 := decimal(m[2])
		if err != nil || err2 != nil {
			return nil, false
		}
		numbers = append(numbers, value, weight)
	}
	return numbers, len(numbers) > 0
}

func decimal(s string) (float64, error) {
	return strconv.ParseFloat(strings.Replace(s, ",", ".", 1), 64)
}
