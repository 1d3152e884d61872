package chart

// markers is how many shapes there are; further series begin anew.
const markers = 8

// marker is the path of the i-th shape about a point. The shapes differ
// enough to be told apart without colour.
func marker(i int, x, y float64) string {
	const r = 4.2
	switch i % markers {
	case 0:
		return circle(x, y, r)
	case 1:
		return polygon(x, y, -3.7, -3.7, 3.7, -3.7, 3.7, 3.7, -3.7, 3.7)
	case 2:
		return polygon(x, y, 0, -5, 4.7, 3.6, -4.7, 3.6)
	case 3:
		return polygon(x, y, 0, -5.3, 5.3, 0, 0, 5.3, -5.3, 0)
	case 4:
		return polygon(x, y, 0, 5, 4.7, -3.6, -4.7, -3.6)
	case 5:
		return polygon(x, y, -2, -5.2, 2, -5.2, 2, 5.2, -2, 5.2)
	case 6:
		return polygon(x, y, -5.2, -2, 5.2, -2, 5.2, 2, -5.2, 2)
	default:
		return polygon(x, y, 0, -5.2, 4.9, -1.6, 3.1, 4.2, -3.1, 4.2, -4.9, -1.6)
	}
}

// circle is the path of a whole circle.
func circle(x, y, r float64) string {
	half := "a" + at(r, r) + " 0 0 1 "
	return "M" + at(x-r, y) + half + at(2*r, 0) + half + at(-2*r, 0) + "Z"
}

// polygon is a closed path through offsets from a point.
func polygon(x, y float64, off ...float64) string {
	d := "M"
	for i := 0; i < len(off); i += 2 {
		if i > 0 {
			d += "L"
		}
		d += at(x+off[i], y+off[i+1])
	}
	return d + "Z"
}

// cross marks a reading that is left out of the reckoning.
func cross(x, y float64) string {
	return "M" + at(x-3.5, y-3.5) + "l7 7M" + at(x+3.5, y-3.5) + "l-7 7"
}
