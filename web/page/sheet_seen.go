package page

import (
	"encoding/json"
	"hash/fnv"
	"strconv"

	"rimward/internal/journal"
)

// SheetMoved is said when a sheet was corrected after the page was opened that
// makes a pour of it.
const SheetMoved = "The sheet was corrected elsewhere after this page was opened. Look at what it says now, then make it a pour."

// SheetSeen is a short text that differs when what a sheet asks for differs;
// ticks and note leave it as it is.
func SheetSeen(s journal.PourSheet) string {
	b := s.Body
	b.Ticks = nil
	text, err := json.Marshal([]any{s.Wax, s.Fragrance, s.Load, s.LoadBasis, s.Round, b})
	if err != nil {
		panic(err) // plain values always have a JSON form
	}
	h := fnv.New64a()
	h.Write(text) // never fails
	return strconv.FormatUint(h.Sum64(), 36)
}
