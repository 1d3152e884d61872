package journal

// What a recorded burn and a recorded reading must be to say anything of the
// wick. Whoever works with the readings of checks asks here first, so that no
// two pages count differently. Withdrawn records are no matter of these rules:
// see IsGone.

// WidthsCount says why no reading of a burn counts, in words that follow "left
// out:"; "" when they count. Moving air makes pools narrow by itself (common
// practice, no source).
func WidthsCount(l BurnLog) (why string) {
	switch {
	case l.Burn.Draught == DraughtStrong:
		return "it burned in a strong draught"
	case l.Burn.Ending == PutOutUnsafe && len(l.Checks) == 0:
		return "it was put out for safety before the first check"
	}
	return ""
}

// ReadingCounts says why the readings of one check of a burn do not count, in
// words that follow "left out:"; "" when they count.
func ReadingCounts(b Burn, c Check) (why string) {
	switch {
	case c.LeftOut:
		return "left out by hand"
	case !c.At.After(b.LitAt):
		return "read as it was lit"
	case b.OutAt != nil && c.At.After(*b.OutAt):
		return "read after the flame was out"
	}
	return ""
}
