// Package deps holds the import rules of the project: which room may know
// which. It has no code of its own.
package deps

import (
	"encoding/json"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// rule says what a package of ours may import of ours, and which packages of
// others it must never import. A trailing slash stands for all below.
type rule struct {
	may   []string
	never []string
}

var web = []string{"net/http", "database/sql", "modernc.org/", "github.com/go-chi/"}

// rules are the table of rooms. A package that is missing here fails the test.
var rules = map[string]rule{
	"internal/quantity":       {never: append(web, "time")},
	"internal/stats":          {never: append(web, "time")},
	"internal/pour":           {may: []string{"internal/quantity"}, never: append(web, "time", "os")},
	"internal/journal":        {may: []string{"internal/quantity"}, never: append(web, "github.com/go-playground/validator/v10")},
	"internal/grid":           {never: append(web, "time", "os")},
	"internal/meltpool":       {may: []string{"internal/quantity", "internal/stats", "internal/grid"}, never: append(web, "time", "os")},
	"internal/guide":          {may: []string{"internal/quantity", "internal/journal"}, never: append(web, "os")},
	"internal/safety":         {may: []string{"internal/quantity", "internal/journal", "internal/guide", "internal/stats", "internal/meltpool"}, never: append(web, "os")},
	"internal/life":           {may: []string{"internal/journal", "internal/quantity", "internal/stats", "internal/meltpool"}, never: append(web, "os")},
	"internal/settle":         {may: []string{"internal/journal", "internal/quantity", "internal/stats", "internal/safety"}, never: append(web, "os")},
	"internal/standings":      {may: []string{"internal/guide", "internal/journal", "internal/stats", "internal/quantity", "internal/meltpool", "internal/safety", "internal/standings/tree"}, never: append(web, "os")},
	"internal/standings/tree": {may: []string{"internal/stats", "internal/quantity", "internal/meltpool", "internal/grid"}, never: append(web, "os", "time")},
	"internal/cast":           {may: []string{"internal/journal", "internal/stats"}, never: append(web, "os", "time")},
	"internal/compare":        {may: []string{"internal/guide", "internal/journal", "internal/stats", "internal/quantity", "internal/meltpool", "internal/life", "internal/standings", "internal/standings/tree", "internal/safety"}, never: append(web, "os")},
	"internal/influence":      {may: []string{"internal/journal", "internal/quantity", "internal/stats", "internal/meltpool", "internal/standings"}, never: append(web, "os")},
	"internal/verdict":        {may: []string{"internal/journal", "internal/quantity", "internal/stats", "internal/safety", "internal/life", "internal/standings", "internal/standings/tree"}, never: append(web, "os")},
	"internal/plan":           {may: []string{"internal/journal", "internal/quantity", "internal/stats", "internal/meltpool", "internal/standings", "internal/standings/tree", "internal/safety"}, never: append(web, "os")},
	"internal/answer":         {may: []string{"internal/journal", "internal/quantity", "internal/stats", "internal/standings", "internal/influence", "internal/plan"}, never: append(web, "os", "time")},
	"internal/needs":          {may: []string{"internal/journal", "internal/quantity", "internal/pour"}, never: append(web, "os", "time")},
	"internal/ical":           {never: append(web, "os")},
	"internal/label":          {never: append(web, "os", "time")},
	"internal/sqlite":         {may: []string{"internal/journal", "internal/quantity", "migrations"}, never: []string{"net/http"}},
	"internal/photo":          {may: []string{"internal/journal"}, never: append(web, "time")},
	"internal/throw":          {may: []string{"internal/stats"}, never: append(web, "time", "os")},
	"internal/form":           {may: []string{"internal/quantity", "internal/journal"}, never: web},
	"internal/sketch":         {never: append(web, "time", "os")},
	"internal/demo":           {may: []string{"internal/quantity", "internal/journal", "internal/sketch", "internal/plan"}, never: append(web, "os")},
	"internal/server":         {may: []string{"internal/", "web", "web/"}, never: []string{"database/sql", "modernc.org/"}},
	"internal/testkit":        {may: []string{"internal/"}},
	"internal/deps":           {},
	"migrations":              {never: web},
	"web":                     {never: web},
	"web/ui":                  {may: []string{"internal/form"}, never: web},
	"web/chart":               {never: append(web, "time")},
	"web/page": {may: []string{"internal/journal", "internal/quantity", "internal/stats", "internal/meltpool", "internal/standings",
		"internal/standings/tree", "internal/influence", "internal/plan", "internal/needs", "internal/answer", "internal/ical", "internal/pour", "internal/guide", "internal/cast", "internal/settle",
		"internal/label", "internal/safety", "internal/life", "internal/compare", "internal/throw", "internal/verdict", "internal/form", "web/ui", "web/chart"}, never: web},
	"cmd/rimward": {may: []string{"internal/", "web"}, never: []string{"database/sql", "modernc.org/"}},
}

type listed struct {
	ImportPath   string
	Imports      []string
	TestImports  []string
	XTestImports []string
}

func packages(t *testing.T) []listed {
	t.Helper()
	out, err := exec.Command("go", "list", "-json=ImportPath,Imports,TestImports,XTestImports", "rimward/...").Output()
	if err != nil {
		t.Fatalf("list packages: %v", err)
	}
	var all []listed
	for dec := json.NewDecoder(strings.NewReader(string(out))); dec.More(); {
		var p listed
		if err := dec.Decode(&p); err != nil {
			t.Fatal(err)
		}
		all = append(all, p)
	}
	return all
}

func within(list []string, path string) bool {
	return slices.ContainsFunc(list, func(x string) bool {
		return x == path || (strings.HasSuffix(x, "/") && strings.HasPrefix(path, x))
	})
}

func TestArrowsPointOneWay(t *testing.T) {
	for _, p := range packages(t) {
		name := strings.TrimPrefix(p.ImportPath, "rimward/")
		r, known := rules[name]
		if !known {
			t.Errorf("%s has no rule: say here what it may import", name)
			continue
		}
		for _, imp := range p.Imports {
			if ours, is := strings.CutPrefix(imp, "rimward/"); is && !within(r.may, ours) {
				t.Errorf("%s must not import %s", name, ours)
			}
			if within(r.never, imp) {
				t.Errorf("%s must not import %s", name, imp)
			}
			if imp == "rimward/internal/testkit" {
				t.Errorf("%s imports testkit outside its tests", name)
			}
		}
	}
}

// clockRead is a line that asks the machine for the moment.
var clockRead = regexp.MustCompile(`\btime\.(Now|Since|Until)\(`)

// Whoever needs the moment is given it: nothing under internal and web reads
// the machine's clock, but for the line of the log that says how long a request
// took.
func TestNobodyReadsTheClock(t *testing.T) {
	looked := 0
	for _, root := range []string{filepath.Join("..", "..", "internal"), filepath.Join("..", "..", "web")} {
		err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return err
			}
			looked++
			text, err := os.ReadFile(path)
			if err == nil && clockRead.Match(text) && !strings.HasSuffix(filepath.ToSlash(path), "internal/server/middleware.go") {
				t.Errorf("%s reads the clock: it comes in by parameter", path)
			}
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if looked < 100 {
		t.Errorf("only %d files were looked at", looked)
	}
}
