package grid

// Kept is a sheet in as little room as it needs.
type Kept struct {
	log, floor float64
	span       [Rates]span
	values     []float64
}

// Keep copies what a sheet holds beyond its floor.
func (s *Sheet) Keep() *Kept {
	k := &Kept{log: s.Log, floor: s.floor, span: s.span}
	n := 0
	for _, at := range s.span {
		n += at.hi - at.lo
	}
	k.values = make([]float64, 0, n)
	for j, at := range s.span {
		if !at.empty() {
			k.values = append(k.values, s.row[j][at.lo:at.hi]...)
		}
	}
	return k
}

// Bytes is about how much memory the kept sheet takes.
func (k *Kept) Bytes() int { return 8*cap(k.values) + 400 }

// Unfold writes the kept sheet out again.
func (s *Sheet) Unfold(k *Kept) {
	s.Log, s.floor, s.span = k.log, k.floor, k.span
	rest := k.values
	for j, at := range k.span {
		fill(s.row[j][:], k.floor)
		if !at.empty() {
			n := copy(s.row[j][at.lo:at.hi], rest)
			rest = rest[n:]
		}
	}
}
