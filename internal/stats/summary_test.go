package stats

import (
	"math"
	"testing"
)

// TestUnivariate holds mean and standard deviation against NIST StRD,
// univariate summaries. NumAcc4's exact deviation 0.1 cannot be met closer: its
// values near 1e7 are rounded as they are read.
func TestUnivariate(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		file          string
		n             int
		mean, sd      float64
		tolMean, tolS float64
	}{
		{"strd_lew.csv", 200, -177.435000000000, 277.332168044316, 1e-12, 1e-12},
		{"strd_lottery.csv", 218, 518.958715596330, 291.699727470969, 1e-12, 1e-12},
		{"strd_michelso.csv", 100, 299.852400000000, 0.0790105478190518, 1e-10, 1e-10},
		{"strd_numacc4.csv", 1001, 10000000.2, 0.1, 1e-12, 1e-7},
	} {
		t.Run(c.file, func(t *testing.T) {
			t.Parallel()
			s := Summarise(column(t, c.file, "y"))
			if s.N != c.n {
				t.Errorf("got n %d, want %d", s.N, c.n)
			}
			within(t, "mean", s.Mean, c.mean, c.tolMean)
			within(t, "sd", s.SD, c.sd, c.tolS)
		})
	}
}

// TestMeanInterval: three candles burn 5.9, 6.3 and 6.7 g/h. Mean 6.30, sd
// 0.400; half-width 4.30265 x 0.4 / sqrt 3 = 0.994 (t of 2 df, any table).
func TestMeanInterval(t *testing.T) {
	t.Parallel()
	s := Summarise([]float64{5.9, 6.3, 6.7})
	low, high, ok := s.MeanInterval(0.95)
	if !ok {
		t.Fatal("three values have no interval")
	}
	apart(t, "mean", s.Mean, 6.30, 1e-12)
	apart(t, "sd", s.SD, 0.400, 1e-12)
	apart(t, "half-width", (high-low)/2, 4.30265*0.4/math.Sqrt(3), 1e-5)
	apart(t, "half-width as printed", (high-low)/2, 0.994, 5e-4)
	apart(t, "middle", (high+low)/2, 6.30, 1e-12)
	if s.Min != 5.9 || s.Max != 6.7 {
		t.Errorf("got ends %v and %v", s.Min, s.Max)
	}
}

func TestSmallSamples(t *testing.T) {
	t.Parallel()
	t.Run("none is a state", func(t *testing.T) {
		t.Parallel()
		s := Summarise(nil)
		if s.N != 0 || !math.IsNaN(s.Mean) || !math.IsNaN(s.SD) || !math.IsNaN(s.Min) || !math.IsNaN(s.Max) {
			t.Errorf("got %+v", s)
		}
		if _, _, ok := s.MeanInterval(0.95); ok {
			t.Error("nothing has an interval")
		}
	})
	t.Run("one has a mean and no spread", func(t *testing.T) {
		t.Parallel()
		s := Summarise([]float64{6.3})
		if s.N != 1 || s.Mean != 6.3 || !math.IsNaN(s.SD) || s.Min != 6.3 || s.Max != 6.3 {
			t.Errorf("got %+v", s)
		}
		if _, _, ok := s.MeanInterval(0.95); ok {
			t.Error("one value has an interval")
		}
	})
	t.Run("two have a wide interval", func(t *testing.T) {
		t.Parallel()
		// sd of 6 and 7 is sqrt 0.5; t of 1 df is 12.7062, so the half-width is 6.3531.
		low, high, ok := Summarise([]float64{6, 7}).MeanInterval(0.95)
		if !ok {
			t.Fatal("two values have no interval")
		}
		apart(t, "low", low, 6.5-6.3531, 1e-4)
		apart(t, "high", high, 6.5+6.3531, 1e-4)
	})
	t.Run("equal values have no spread", func(t *testing.T) {
		t.Parallel()
		s := Summarise([]float64{6.3, 6.3, 6.3, 6.3})
		low, high, ok := s.MeanInterval(0.95)
		if s.SD != 0 || s.Mean != 6.3 || !ok || low != 6.3 || high != 6.3 {
			t.Errorf("got %+v, %v to %v", s, low, high)
		}
	})
}
