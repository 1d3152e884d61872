package stats

import (
	"errors"
	"fmt"
	"math"
	"slices"
)

// Agreement is Fleiss' kappa: how much more often judges put things into the
// same class than chance would, 0 no more, 1 always.
type Agreement struct {
	Subjects, Raters int // Raters: judgements of each subject
	Kappa            float64
	Z                float64 // of the hypothesis of no agreement beyond chance
	Classes          []ClassAgreement
	Warnings         []string
}

// ClassAgreement is the kappa of one class against all others.
type ClassAgreement struct {
	Share    float64 // of all judgements
	Known    bool    // some judgements chose the class and some another
	Kappa, Z float64 // 0 unless Known
}

// FleissKappa measures agreement on named classes from counts: one row a
// subject, one column a class, each row the same number of judgements (Fleiss,
// Psychol. Bull. 76:378-382, 1971; the standard errors of no agreement are those
// of Fleiss, Nee & Landis, Psychol. Bull. 86:974-977, 1979, from memory). It
// returns ErrTooFew below two subjects or two judgements each, or when all
// judgements chose one class.
func FleissKappa(counts [][]int) (Agreement, error) {
	raters, err := raters(counts)
	if err != nil {
		return Agreement{}, err
	}
	a := Agreement{Subjects: len(counts), Raters: raters}
	judgements := float64(a.Subjects * raters)
	pairs := judgements * float64(raters-1)
	var differ, expected, skew float64
	for j := range counts[0] {
		var sum, unlike float64
		for _, row := range counts {
			sum += float64(row[j])
			unlike += float64(row[j]) * float64(raters-row[j])
		}
		p := sum / judgements
		c := ClassAgreement{Share: p, Known: p > 0 && p < 1}
		if c.Known {
			c.Kappa = 1 - unlike/(pairs*p*(1-p))
			c.Z = c.Kappa / math.Sqrt(2/pairs)
		}
		a.Classes = append(a.Classes, c)
		differ += unlike
		expected, skew = expected+p*(1-p), skew+p*(1-p)*(1-2*p)
	}
	if expected == 0 {
		return Agreement{}, ErrTooFew
	}
	a.Kappa = 1 - differ/pairs/expected
	a.Z = a.Kappa * expected / math.Sqrt(2/pairs*(expected*expected-skew))
	if a.Subjects < fewSubjects {
		a.Warnings = append(a.Warnings, fewSubjectsText)
	}
	return a, nil
}

// fewSubjects is the number of judged things below which an agreement is called
// rough (common practice, no source).
const fewSubjects = 10

const fewSubjectsText = "fewer than ten things judged: the agreement is rough"

// raters is the number of judgements that every row adds up to.
func raters(counts [][]int) (int, error) {
	if len(counts) < 2 {
		return 0, ErrTooFew
	}
	first := 0
	for i, row := range counts {
		sum := 0
		for _, c := range row {
			if c < 0 {
				return 0, errors.New("measure agreement: a count is below 0")
			}
			sum += c
		}
		if i == 0 {
			first = sum
		}
		if sum != first || len(row) != len(counts[0]) {
			return 0, errors.New("measure agreement: rows differ in classes or in judgements")
		}
	}
	if first < 2 {
		return 0, ErrTooFew
	}
	return first, nil
}

// Scale says what the differences between judged values mean.
type Scale int

// The scales of measurement, each with its own measure of how far two values
// lie apart.
const (
	Nominal  Scale = iota // names: equal or not
	Ordinal               // an order: how many judgements lie between
	Interval              // a difference
	Ratio                 // a difference beside the sum; no value below 0
)

// Reliability is Krippendorff's alpha: 1 for judges who agree wholly, 0 for
// judgements that could be by chance, below 0 for worse.
type Reliability struct {
	Units, Values int // units judged twice or more, and the judgements of those
	LeftOut       int // units judged once only
	Alpha         float64
	Warnings      []string
}

// KrippendorffAlpha measures agreement on a scale, one row a judge and one
// column a unit; NaN stands for a judgement that was not made (Krippendorff,
// Content Analysis, 1980, chapter 12; Computing Krippendorff's
// Alpha-Reliability, 2011). It returns ErrTooFew when no unit was judged twice
// or all judgements that can be paired are equal.
func KrippendorffAlpha(ratings [][]float64, scale Scale) (Reliability, error) {
	units, left, err := paired(ratings, scale)
	if err != nil {
		return Reliability{}, fmt.Errorf("measure reliability: %w", err)
	}
	values, counts := frequencies(units)
	if len(values) < 2 {
		return Reliability{}, ErrTooFew
	}
	apart := distances(values, counts, scale)
	r := Reliability{Units: len(units), LeftOut: left}
	var observed, expected float64
	for _, u := range units {
		r.Values += len(u)
		observed += pairSum(u, func(a, b float64) float64 {
			i, _ := slices.BinarySearch(values, a)
			j, _ := slices.BinarySearch(values, b)
			return apart(i, j)
		}) / float64(len(u)-1)
	}
	for i := range values {
		for j := range i {
			expected += counts[i] * counts[j] * apart(j, i)
		}
	}
	r.Alpha = 1 - float64(r.Values-1)*observed/expected
	r.doubts()
	return r, nil
}

// doubts adds what is to be said about the agreement in words.
func (r *Reliability) doubts() {
	if r.Units < fewSubjects {
		r.Warnings = append(r.Warnings, fewSubjectsText)
	}
	if r.LeftOut > 0 {
		r.Warnings = append(r.Warnings, fmt.Sprintf("judged once only and left out: %d", r.LeftOut))
	}
}

// paired is the judgements of each unit that has two or more, in a unit of
// measure in which none is far above 1, and the number of units with only one.
func paired(ratings [][]float64, scale Scale) (units [][]float64, left int, err error) {
	if scale < Nominal || scale > Ratio {
		return nil, 0, fmt.Errorf("no scale has number %d", scale)
	}
	var largest float64
	columns := 0
	for _, row := range ratings {
		columns = max(columns, len(row))
		for _, v := range row {
			if math.IsInf(v, 0) || scale == Ratio && v < 0 {
				return nil, 0, fmt.Errorf("a judgement of %v has no place on the scale", v)
			}
			if !math.IsNaN(v) {
				largest = max(largest, math.Abs(v))
			}
		}
	}
	exponent := 0
	if scale == Interval || scale == Ratio {
		_, exponent = math.Frexp(largest)
	}
	for u := range columns {
		var made []float64
		for _, row := range ratings {
			if u < len(row) && !math.IsNaN(row[u]) {
				made = append(made, math.Ldexp(row[u], -exponent))
			}
		}
		switch {
		case len(made) > 1:
			units = append(units, made)
		case len(made) == 1:
			left++
		}
	}
	return units, left, nil
}

// frequencies is the different values in order, and how often each was given.
func frequencies(units [][]float64) (values, counts []float64) {
	all := slices.Concat(units...)
	slices.Sort(all)
	for i, v := range all {
		if i == 0 || v != all[i-1] {
			values, counts = append(values, v), append(counts, 0)
		}
		counts[len(counts)-1]++
	}
	return values, counts
}

// distances is the squared distance of the i-th and the j-th value on a scale.
func distances(values, counts []float64, scale Scale) func(i, j int) float64 {
	below := make([]float64, len(counts)) // with half of the value's own
	var sum float64
	for i, c := range counts {
		below[i], sum = sum+c/2, sum+c
	}
	return func(i, j int) float64 {
		if i == j {
			return 0
		}
		d := values[i] - values[j]
		switch scale {
		case Ordinal:
			d = below[i] - below[j]
		case Ratio:
			d /= values[i] + values[j]
		case Nominal:
			d = 1
		}
		return d * d
	}
}

// pairSum adds up a distance over all pairs of a unit's judgements.
func pairSum(u []float64, apart func(a, b float64) float64) (sum float64) {
	for i := range u {
		for j := range i {
			sum += apart(u[i], u[j])
		}
	}
	return sum
}
