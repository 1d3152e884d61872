package form

import (
	"reflect"

	"github.com/go-playground/validator/v10"
)

const chooseSentence = "Choose one from the list."

// sentences says what each validator tag that our inputs use means, to the
// person.
var sentences = map[string]string{
	"required":       "Please fill this in.",
	"required_with":  "Please fill this in too.",
	"oneof":          chooseSentence,
	"timezone_known": "No time zone has this name. Write one such as Europe/Lisbon.",
	"max":            "That is too long.",
	"gt":             "It must be more than nothing.",
	"gte":            "It cannot be below nothing.",
	"lte":            "That is more than anything here can be.",
	"unique":         "Choose each only once.",
}

// sentenceOf is what a person is told of a broken rule.
func sentenceOf(b validator.FieldError) string {
	if b.Tag() == "lte" && b.Kind() == reflect.Int {
		return "It can be " + b.Param() + " at most."
	}
	if s, ok := sentences[b.Tag()]; ok {
		return s
	}
	return "This cannot be right."
}
