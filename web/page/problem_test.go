package page_test

import "rimward/internal/form"

func problem(field, text string) form.Problem { return form.Problem{Field: field, Text: text} }
