package plan

// pair is what is known of a log width and of how far the logarithm of an
// opening rate lies from the usual one, as a normal distribution: its
// information matrix, and that times its mean. Nothing known is the zero pair.
type pair struct {
	widths, both, rates float64
	width, rate         float64
}

// see adds a width that was seen, of a variance: it would be higher by so much
// for each unit of the rate.
func (p *pair) see(width, turns, variance float64) {
	v := 1 / variance
	p.widths, p.both, p.rates = p.widths+v, p.both+v*turns, p.rates+v*turns*turns
	p.width, p.rate = p.width+v*width, p.rate+v*turns*width
}

// and is what two sources say together.
func (p pair) and(o pair) pair {
	return pair{p.widths + o.widths, p.both + o.both, p.rates + o.rates, p.width + o.width, p.rate + o.rate}
}

// blur is what a pair says of a pair that lies about it with variances of the
// width and the rate: the inverse of the inverse of its matrix plus those, in
// a form that holds for what is only half known.
func (p pair) blur(width, rate float64) pair {
	a, b, c, d := 1+p.widths*width, p.both*rate, p.both*width, 1+p.rates*rate
	det := a*d - b*c
	return pair{
		widths: (d*p.widths - b*p.both) / det, both: (d*p.both - b*p.rates) / det, rates: (a*p.rates - c*p.both) / det,
		width: (d*p.width - b*p.rate) / det, rate: (a*p.rate - c*p.width) / det,
	}
}

// belief is a pair by its means, variances and covariance.
type belief struct {
	width, rate          float64
	widths, rates, along float64
}

// belief turns the matrix round; both must be known.
func (p pair) belief() belief {
	det := p.widths*p.rates - p.both*p.both
	b := belief{widths: p.rates / det, rates: p.widths / det, along: -p.both / det}
	b.width, b.rate = b.widths*p.width+b.along*p.rate, b.along*p.width+b.rates*p.rate
	return b
}
