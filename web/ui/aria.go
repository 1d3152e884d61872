package ui

import "github.com/a-h/templ"

// ariaOf gathers what assistive technology is told of a field's input.
func ariaOf(f Field) templ.Attributes {
	a := templ.Attributes{}
	if f.Problem != "" {
		a["aria-invalid"] = "true"
	}
	if d := f.DescribedBy(); d != "" {
		a["aria-describedby"] = d
	}
	if f.AriaLabel != "" {
		a["aria-label"] = f.AriaLabel
	}
	if f.Required {
		a["aria-required"] = "true"
	}
	if f.Autofocus {
		a["autofocus"] = true
	}
	return a
}
