package tree

import (
	"crypto/sha256"
	"encoding/binary"
	"math"
	"sync"

	"rimward/internal/grid"
)

// burnKey names a burn's readings in its vessel under one shape.
type burnKey [sha256.Size]byte

// keptBurns keeps the likelihoods of burns that were worked out lately, so
// that a check more costs one burn and not its whole series.
type keptBurns struct {
	mu    sync.Mutex
	found map[burnKey]*grid.Kept
	order []burnKey
	bytes int
	most  int
}

// burnShelf is where a worker looks for burns, and puts those that it worked
// out.
type burnShelf interface {
	find(burnKey) *grid.Kept
	put(burnKey, *grid.Sheet)
}

// only is the same shelf to those who only look.
func (k *keptBurns) only() burnShelf { return onlyLook{k} }

type onlyLook struct{ *keptBurns }

func (onlyLook) put(burnKey, *grid.Sheet) {}

func newKeptBurns(most int) *keptBurns {
	return &keptBurns{found: map[burnKey]*grid.Kept{}, most: most}
}

func (k *keptBurns) find(key burnKey) *grid.Kept {
	k.mu.Lock()
	defer k.mu.Unlock()
	return k.found[key]
}

// put keeps one more and lets the oldest go.
func (k *keptBurns) put(key burnKey, s *grid.Sheet) {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.found[key] != nil {
		return
	}
	v := s.Keep()
	k.found[key] = v
	k.order = append(k.order, key)
	k.bytes += v.Bytes()
	for k.bytes > k.most && len(k.order) > 1 {
		k.bytes -= k.found[k.order[0]].Bytes()
		delete(k.found, k.order[0])
		k.order = k.order[1:]
	}
}

// keyOf is the key of a burn.
func keyOf(s Series, b Burn, shape int) burnKey {
	return sha256.Sum256(appendBurn(appendNumbers(nil, float64(s.Wall.Width), float64(s.Wall.Target), float64(s.Ruler), float64(shape)), b))
}

// seriesKey names everything that a series' answer depends on.
func seriesKey(s Series) [sha256.Size]byte {
	buf := appendNumbers(nil, float64(s.Wall.Width), float64(s.Wall.Target), float64(s.Ruler))
	for _, p := range s.Pairings {
		buf = appendNumbers(buf, float64(p.Rung), float64(len(p.Candles)))
		for _, c := range p.Candles {
			buf = appendNumbers(buf, float64(len(c)))
			for _, b := range c {
				buf = appendBurn(buf, b)
			}
		}
	}
	return sha256.Sum256(buf)
}

// placeKey names a series by what it is, whatever was read in it.
func placeKey(s Series) [sha256.Size]byte {
	buf := appendNumbers(nil, float64(s.Wall.Width), float64(s.Wall.Target), float64(s.Ruler))
	for _, p := range s.Pairings {
		buf = appendNumbers(buf, float64(p.Rung))
	}
	return sha256.Sum256(buf)
}

func appendBurn(buf []byte, b Burn) []byte {
	buf = appendNumbers(buf, float64(len(b)))
	for _, r := range b {
		full := 0.0
		if r.Full {
			full = 1
		}
		buf = appendNumbers(buf, float64(r.Hour), r.Ratio, full)
	}
	return buf
}

func appendNumbers(buf []byte, vs ...float64) []byte {
	for _, v := range vs {
		buf = binary.LittleEndian.AppendUint64(buf, math.Float64bits(v))
	}
	return buf
}
