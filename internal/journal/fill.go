package journal

import "rimward/internal/quantity"

// SplitFill parts a filled mass into wax and fragrance oil at a load on the
// wax: of 108 g at 8 % of the wax, 100 g are wax and 8 g are oil.
func SplitFill(filled quantity.Grams, ofWax quantity.Fraction) (wax, oil quantity.Grams) {
	wax = quantity.Grams(float64(filled) / (1 + float64(ofWax)))
	return wax, filled - wax
}
