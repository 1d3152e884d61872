package stats

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
)

// FitClustered is FitWithin, or FitCensored where some value has no one place,
// for rows that come in clusters which may share a chance of their own, as
// candles of one pour do. The estimates stay; each standard error is worked out
// of what is left over in whole clusters, adjusted for leverage so that it is
// right on average where clusters share nothing (CR2; Bell & McCaffrey, Survey
// Methodology 28:169-181, 2002), and its interval is Student's with the degrees
// of freedom of that sum by Satterthwaite's rule, which are those of the
// clusters that speak for the coefficient, not those of the rows (Pustejovsky &
// Tipton, J. Bus. Econ. Stat. 36:672-683, 2018; all from memory). Values between
// ends enter by the slope and curvature of their likelihood.
//
// df are the degrees of freedom of the rows, as FitCensored takes them: they
// bear on ResidualSD alone. A coefficient that one cluster stands alone for, as
// the only one on its side, has no standard error (NaN) and DF 0.
func FitClustered(group []int, x [][]float64, y []Censored, cluster []int, df int, level float64) (Linear, error) {
	if len(cluster) != len(y) {
		return Linear{}, errors.New("fit clustered: not as many clusters as values")
	}
	l, p, err := fitCensored(group, x, y, df, level)
	if err != nil {
		return l, err
	}
	w, err := p.working(cluster)
	if err != nil {
		return l, err
	}
	for k := range l.Coef {
		if err := w.robust(&l.Coef[k], p, k, level); err != nil {
			return l, fmt.Errorf("fit clustered: %w", err)
		}
	}
	return l, nil
}

// working is a fit turned into least squares of rows with weights: q spans the
// weighted columns, r turns them into it, left is what is left over, and rows
// are those of each cluster.
type working struct {
	q, r *mat.Dense
	left []float64
	rows [][]int
}

// working weighs each row by the curvature of its likelihood; what is left over
// is the slope over the weight's root.
func (p *censoredFit) working(cluster []int) (w working, err error) {
	n, columns := len(p.y), p.groups+p.slopes
	weighted := mat.NewDense(n, columns, nil)
	w.left = make([]float64, n)
	place := map[int]int{}
	for i, v := range p.y {
		t := termOf(v, p.predicted(i), p.at[columns])
		if root := math.Sqrt(-t.etaEta); root > 1e-6 {
			w.left[i] = t.eta / root
			for k, z := range p.z[i] {
				weighted.Set(i, k, root*z)
			}
		}
		if _, ok := place[cluster[i]]; !ok {
			place[cluster[i]], w.rows = len(w.rows), append(w.rows, nil)
		}
		at := place[cluster[i]]
		w.rows[at] = append(w.rows[at], i)
	}
	w.q, w.r, err = thin(weighted)
	return w, err
}

// thin is the QR decomposition with no more columns than there are, q worked
// back from r, for the whole of it has as many columns as rows.
func thin(a *mat.Dense) (*mat.Dense, *mat.Dense, error) {
	_, k := a.Dims()
	var qr mat.QR
	qr.Factorize(a)
	var r, q mat.Dense
	qr.RTo(&r)
	top := mat.DenseCopyOf(r.Slice(0, k, 0, k))
	if err := q.Solve(top.T(), a.T()); err != nil {
		return nil, nil, ErrUnbounded
	}
	return mat.DenseCopyOf(q.T()), top, nil
}

// robust gives a coefficient the standard error, the degrees of freedom and the
// interval that its clusters bear.
func (w working) robust(c *Coefficient, p *censoredFit, k int, level float64) error {
	columns := p.groups + p.slopes
	unit, v := mat.NewVecDense(columns, nil), new(mat.VecDense)
	unit.SetVec(p.groups+k, 1)
	if err := v.SolveVec(w.r.T(), unit); err != nil {
		return ErrUnbounded
	}
	var sum float64
	var shares []clusterShare
	for _, rows := range w.rows {
		s, err := w.share(rows, v)
		if err != nil {
			return err
		}
		shares, sum = append(shares, s), sum+s.left*s.left
	}
	c.SE, c.DF = math.NaN(), satterthwaite(shares, mat.Dot(v, v))
	if c.DF > 0 {
		c.SE = math.Sqrt(sum) * p.unit / p.at[columns] / p.d.scale[k]
	}
	half := c.SE * tQuantileOf(level, max(c.DF, 1))
	c.Low, c.High = c.Estimate-half, c.Estimate+half
	return nil
}

// clusterShare is what one cluster adds to a coefficient's variance: what is
// left over in it along the coefficient, the squared length of its rows along
// it, and those rows seen in the columns.
type clusterShare struct {
	left, square float64
	seen         *mat.VecDense
}

func (w working) share(rows []int, v mat.Vector) (clusterShare, error) {
	_, columns := w.q.Dims()
	q, left := mat.NewDense(len(rows), columns, nil), mat.NewVecDense(len(rows), nil)
	for i, row := range rows {
		q.SetRow(i, w.q.RawRowView(row))
		left.SetVec(i, w.left[row])
	}
	var along, a, seen mat.VecDense
	along.MulVec(q, v)
	adjust, err := leverage(q)
	if err != nil {
		return clusterShare{}, err
	}
	a.MulVec(adjust, &along)
	seen.MulVec(q.T(), &a)
	return clusterShare{mat.Dot(&a, left), mat.Dot(&a, &a), &seen}, nil
}

// leverage is one over the root of what a cluster's rows keep of their own
// scatter, the directions left out of which they keep none.
func leverage(q *mat.Dense) (*mat.Dense, error) {
	n, _ := q.Dims()
	kept := mat.NewSymDense(n, nil)
	kept.SymOuterK(-1, q)
	for i := range n {
		kept.SetSym(i, i, 1+kept.At(i, i))
	}
	var eigen mat.EigenSym
	if !eigen.Factorize(kept, true) {
		return nil, ErrUnbounded
	}
	var vectors, scaled, out mat.Dense
	eigen.VectorsTo(&vectors)
	values := eigen.Values(nil)
	scaled.Apply(func(_, j int, x float64) float64 {
		if values[j] < 1e-9 {
			return 0
		}
		return x / math.Sqrt(values[j])
	}, &vectors)
	out.Mul(&scaled, vectors.T())
	return &out, nil
}

// satterthwaite is twice the squared mean over the variance of the sum of
// squares, which is 1 or more, if all rows had scatter of their own alone. It is
// 0 where the mean falls short of the variance that there should be: then some
// cluster stands alone for a part of the coefficient, and fits itself.
func satterthwaite(shares []clusterShare, full float64) float64 {
	var trace, squares float64
	for i, a := range shares {
		for j, b := range shares {
			x := -mat.Dot(a.seen, b.seen)
			if i == j {
				x += a.square
				trace += x
			}
			squares += x * x
		}
	}
	if trace < 0.999*full {
		return 0
	}
	return trace * trace / squares
}
