package page

// AboutPage says what the program is and what it is made with.
type AboutPage struct {
	Version string
	Modules []Module
}

// Module is one piece of other people's work that the program carries.
type Module struct{ Path, For, Licence string }

// modules lists what the program is built from; the licences are those of the
// files that come with each.
var modules = []Module{
	{"github.com/go-chi/chi", "finding the page for an address", "MIT"},
	{"github.com/a-h/templ", "marking up the pages", "MIT"},
	{"modernc.org/sqlite", "the journal's file (SQLite itself is in the public domain)", "BSD, 3 clauses"},
	{"github.com/pressly/goose", "bringing an older journal up to date", "MIT"},
	{"github.com/go-playground/validator", "checking what forms say", "MIT"},
	{"gonum.org/v1/gonum", "statistics", "BSD, 3 clauses"},
	{"github.com/google/uuid", "making sure that a form is saved once", "BSD, 3 clauses"},
	{"codeberg.org/go-fonts/stix", "carrying the text face", "BSD, 3 clauses"},
}

// NewAboutPage builds the page for one version of the program.
func NewAboutPage(version string) AboutPage {
	if version == "" {
		version = "not stated"
	}
	return AboutPage{Version: version, Modules: modules}
}
