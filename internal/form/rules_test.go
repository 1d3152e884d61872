package form

import (
	"go/ast"
	"go/parser"
	"go/token"
	"maps"
	"path/filepath"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"

	"rimward/internal/quantity"
)

// tagsInUse gathers every validator tag of every struct in the package's
// source, with one field that carries it; an input that is written tomorrow is
// found too.
func tagsInUse(t *testing.T) map[string]string {
	t.Helper()
	names, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	found := map[string]string{}
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(file, func(n ast.Node) bool {
			if f, ok := n.(*ast.Field); ok && f.Tag != nil {
				addTags(t, f, found)
			}
			return true
		})
	}
	return found
}

// addTags notes the validator tags of one field.
func addTags(t *testing.T, f *ast.Field, found map[string]string) {
	t.Helper()
	raw, err := strconv.Unquote(f.Tag.Value)
	if err != nil {
		t.Fatal(err)
	}
	tag := reflect.StructTag(raw)
	if tag.Get("validate") != "" && tag.Get("form") == "" {
		t.Errorf("%v has a rule and no name in the form", f.Names)
	}
	for _, rule := range strings.FieldsFunc(tag.Get("validate"), func(r rune) bool { return r == ',' || r == '|' }) {
		name, _, _ := strings.Cut(rule, "=")
		found[name] = f.Names[0].Name
	}
}

func TestEveryRuleHasItsSentence(t *testing.T) {
	t.Parallel()
	inUse := tagsInUse(t)
	if len(inUse) < 5 {
		t.Fatalf("found hardly any tags: %v", inUse)
	}
	for _, says := range []string{"omitempty", "dive"} { // these never refuse
		delete(inUse, says)
	}
	diff(t, "tags with a sentence", slices.Sorted(maps.Keys(inUse)), slices.Sorted(maps.Keys(sentences)))
	for tag, s := range sentences {
		if len(s) < 10 || !strings.HasSuffix(s, ".") {
			t.Errorf("%s: %q is no sentence", tag, s)
		}
	}
}

func TestARuleWithoutASentenceIsStillSaid(t *testing.T) {
	t.Parallel()
	type input struct {
		Code string `form:"code" validate:"len=3"`
	}
	p := metric()
	p.Check(input{"ab"})
	diff(t, "problems", Problems{{"code", "This cannot be right."}}, p.Problems())
}

// TestZeroIsAnAnswer: a pointer tells nothing typed from a nought typed.
func TestZeroIsAnAnswer(t *testing.T) {
	t.Parallel()
	type input struct {
		Load *quantity.Fraction `form:"load" validate:"required,gte=0"`
	}
	p := metric("load", "0")
	p.Check(input{p.Percent("load")})
	diff(t, "a typed nought", Problems(nil), p.Problems())
	p = metric("load", "")
	p.Check(input{p.Percent("load")})
	diff(t, "nothing typed", Problems{{"load", "Please fill this in."}}, p.Problems())
	p = metric("load", "x")
	p.Check(input{p.Percent("load")})
	diff(t, "what could not be read", Problems{{"load", "Write a share in per cent, such as 8 or 8.5 %."}}, p.Problems())
}
