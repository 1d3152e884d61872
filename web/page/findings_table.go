package page

import (
	"strconv"
	"time"

	"rimward/internal/quantity"
	"rimward/internal/safety"
)

// FindingsTable is the list as rows of a spreadsheet, the first naming the
// columns. Times are in the studio's zone, hours as decimals.
func FindingsTable(fs []safety.Finding, v View) [][]string {
	out := [][]string{{"level", "finding", "candle", "burn", "seen", "hours since lighting", "reading", "limit", "text", "source"}}
	for _, f := range fs {
		burn, hour, seen := "", "", ""
		if f.Burn > 0 {
			burn = strconv.Itoa(f.Burn)
		}
		if f.Hour > 0 {
			hour = quantity.Number(float64(f.Hour), 2)
		}
		if !f.At.IsZero() {
			seen = f.At.In(v.Zone).Format(time.RFC3339)
		}
		out = append(out, []string{string(f.Level), f.Rule, f.Candle, burn, seen, hour, f.Reading.String(), f.Limit.String(), f.Text, f.Source})
	}
	return out
}
