package standings_test

import (
	"encoding/json"
	"strings"
	"testing"

	"rimward/internal/standings"
)

// No text makes a sheet panic, and whatever is accepted is worked out to
// numbers: a document with one that is not finite cannot be written.
func FuzzReadSheet(f *testing.F) {
	for _, seed := range []string{
		"", "\xef\xbb\xbf", names, names + good, strings.ReplaceAll(names+good, ",", ";"), names + "\"", names + ",,,,,,,,,\n",
		names + with("width_mm", "NaN"), names + with("hour", "1e-9"), names + with("rung", "") + with("series", "2"),
		names + with("rung", "-9") + with("rung", "7") + with("width_mm", "0"),
		names + with("width_mm", "0") + with("hour", "24") + strings.Replace(good, ",41,", ",,", 1),
		names + "A,10,0.25,B,0,C,D,0.01,,1\nA,10,0.25,B,0,C,D,24,0,\n",
		names + "A,500,24,B,,C,D,24,510,\nA,500,,B,,C,D,0.01,500,\n",
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		stacks, err := standings.ReadSheet(strings.NewReader(text), 1)
		if err != nil {
			if err.Error() == "" {
				t.Error("a refusal without a word")
			}
			return
		}
		if len(stacks) == 0 {
			t.Fatal("nothing was read, and nothing said")
		}
		if len(text) > 2000 {
			return // small sheets will do, and are quick
		}
		table, err := standings.WorkStacks(t.Context(), stacks, standings.PriorOf(nil))
		if err != nil {
			t.Fatal(err)
		}
		var b strings.Builder
		if err := table.WriteJSON(&b); err != nil || !json.Valid([]byte(b.String())) {
			t.Errorf("no document: %v", err)
		}
	})
}
