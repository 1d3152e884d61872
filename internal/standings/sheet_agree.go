package standings

import (
	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// sheetVessels are the vessels of a sheet by name. Every line of a vessel must
// say the same of it; one that leaves the target hour blank says nothing of
// it.
func sheetVessels(lines []*sheetLine, ps *sheetProblems) map[string]journal.Vessel {
	out := map[string]journal.Vessel{}
	inner, target := map[string]*sheetLine{}, map[string]*sheetLine{}
	told := map[[2]string]bool{} // each once
	differ := func(l, from *sheetLine, column, what, one, other string) {
		if key := [2]string{l.vessel, column}; !told[key] {
			told[key] = true
			ps.add(l.line, column, "two vessels of the same name: %s has %s %s here and %s on line %d; name them apart, or mend one", quoted(l.vessel), what, one, other, from.line)
		}
	}
	for _, l := range lines {
		v, known := out[l.vessel]
		if !known {
			v = journal.Vessel{Name: l.vessel, Shape: journal.Round, InnerWidth: l.inner}
			inner[l.vessel] = l
		}
		if l.inner != v.InnerWidth {
			differ(l, inner[l.vessel], colInner, "an inner width of", exactly(l.inner, "mm"), exactly(v.InnerWidth, "mm"))
		}
		switch {
		case l.target == nil:
		case v.TargetHours == nil:
			v.TargetHours, target[l.vessel] = l.target, l
		case *l.target != *v.TargetHours:
			differ(l, target[l.vessel], colTarget, "a target hour of", exactly(*l.target, "h"), exactly(*v.TargetHours, "h"))
		}
		out[l.vessel] = v
	}
	return out
}

// exactly writes a number so that it is told apart from any near it.
func exactly[T ~float64](v T, unit string) string { return quantity.Number(float64(v), 6) + " " + unit }

// widestLadder is how far apart the ends of a ladder may lie: beyond that the
// numbers are sizes, not places, and the rungs between them do not exist.
const widestLadder = 60

// sheetLadders holds that the wicks of a series either all have rungs, of one
// ladder, or none has.
func sheetLadders(lines []*sheetLine, ps *sheetProblems) {
	for _, ls := range parted(lines, seriesKey) {
		var with, without *sheetLine
		var low, high *sheetLine
		for _, l := range ls {
			if l.rung == nil {
				without = first(without, l)
				continue
			}
			with = first(with, l)
			if low == nil || *l.rung < *low.rung {
				low = l
			}
			if high == nil || *l.rung > *high.rung {
				high = l
			}
		}
		switch {
		case with != nil && without != nil:
			ps.add(without.line, colRung, "nothing is written here, but line %d of this vessel and series has a rung; give all of them one, or none", with.line)
		case low != nil && *high.rung-*low.rung > widestLadder:
			ps.add(max(low.line, high.line), colRung, "rungs %d (line %d) and %d (line %d) lie too far apart for one ladder; number the wicks by their place in it: 1, 2, 3 …",
				*low.rung, low.line, *high.rung, high.line)
		}
	}
}

func first(was, is *sheetLine) *sheetLine {
	if was != nil {
		return was
	}
	return is
}

// seriesKey tells series apart.
func seriesKey(l *sheetLine) [2]string { return [2]string{l.vessel, l.series} }

// parted parts lines by a key, keeping their order within and between the
// parts.
func parted[K comparable](lines []*sheetLine, key func(*sheetLine) K) [][]*sheetLine {
	at := map[K]int{}
	var parts [][]*sheetLine
	for _, l := range lines {
		k := key(l)
		i, ok := at[k]
		if !ok {
			i = len(parts)
			at[k] = i
			parts = append(parts, nil)
		}
		parts[i] = append(parts[i], l)
	}
	return parts
}
