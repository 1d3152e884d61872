package tree

// NewExactDesk is a desk that leaves nothing out, however light.
func NewExactDesk(p Prior) *Desk {
	d := NewDesk(p)
	d.all = true
	return d
}
