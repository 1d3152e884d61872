package page

import (
	"net/url"
	"slices"
	"strconv"
	"strings"

	"rimward/internal/compare"
	"rimward/internal/journal"
	"rimward/internal/standings"
	"rimward/web/ui"
)

// SidesKey names one thing that is set side by side: a candle, or a pairing.
type SidesKey struct {
	Candle  journal.ID // 0 for a pairing
	Pairing PairingChoice
}

// Text is the key as it stands in an address: c12, or p and the pairing's
// vessel, wax, wick and series.
func (k SidesKey) Text() string {
	if k.Candle != 0 {
		return "c" + idText(k.Candle)
	}
	p := k.Pairing
	return "p" + strings.Join([]string{idText(p.Vessel), idText(p.Wax), idText(p.Wick), p.Series}, ".")
}

// readSidesKey reads a key; false for what is none.
func readSidesKey(text string) (SidesKey, bool) {
	if rest, ok := strings.CutPrefix(text, "c"); ok {
		id := idFrom(rest)
		return SidesKey{Candle: id}, id != 0
	}
	parts := strings.SplitN(strings.TrimPrefix(text, "p"), ".", 4)
	if !strings.HasPrefix(text, "p") || len(parts) < 4 || parts[3] == "" {
		return SidesKey{}, false
	}
	p := PairingChoice{Vessel: idFrom(parts[0]), Wax: idFrom(parts[1]), Wick: idFrom(parts[2]), Series: parts[3]}
	return SidesKey{Pairing: p}, p.Vessel != 0 && p.Wick != 0
}

// sidesKeyOf names a pairing of the standings.
func sidesKeyOf(g standings.Group, s standings.Series, x standings.Pairing) SidesKey {
	p := PairingChoice{Vessel: g.Vessel.ID, Wick: x.Wick.ID, Series: s.Key}
	if len(g.Settings) > 0 {
		p.Wax = g.Settings[0].Wax.ID
	}
	return SidesKey{Pairing: p}
}

// SidesChoice is what the address asks to see side by side, in its order.
type SidesChoice struct {
	Keys    []SidesKey
	Code    string     // a candle to add by the code on its base
	Kin     journal.ID // a candle whose fellows of one pour are to be added
	Asked   bool       // the address named something, if only what cannot be read
	Twice   bool       // something was named more than once, and stands once
	Unread  []string   // what could not be read
	TooMany int        // how many were left out
}

// ReadSidesChoice reads the choice from the address.
func ReadSidesChoice(q url.Values) SidesChoice {
	c := SidesChoice{Code: strings.TrimSpace(q.Get("code")), Kin: idFrom(q.Get("kin"))}
	for _, text := range q["of"] {
		if text == "" {
			continue
		}
		c.Asked = true
		k, ok := readSidesKey(text)
		switch {
		case !ok:
			c.Unread = append(c.Unread, text)
		case slices.Contains(c.Keys, k):
			c.Twice = true
		default:
			c.Add(k)
		}
	}
	return c
}

// Add puts a key at the end, if it is not there and there is room.
func (c *SidesChoice) Add(k SidesKey) {
	switch {
	case slices.Contains(c.Keys, k):
	case len(c.Keys) == compare.Most:
		c.TooMany++
	default:
		c.Keys = append(c.Keys, k)
	}
}

// Picks reports whether a series holds anything that was chosen.
func (c SidesChoice) Picks(s *standings.Stack) bool {
	return slices.ContainsFunc(c.Keys, func(k SidesKey) bool {
		if k.Candle == 0 {
			return k.Pairing.Picks(s)
		}
		return slices.ContainsFunc(s.Rungs, func(r standings.Rung) bool {
			return slices.ContainsFunc(r.Rows, func(x standings.CandleRow) bool { return x.Candle.ID == k.Candle })
		})
	})
}

// Address is where the choice is shown.
func (c SidesChoice) Address() string { return sidesAddress(c.Keys) }

func sidesAddress(keys []SidesKey) string {
	if len(keys) == 0 {
		return "/side-by-side"
	}
	var parts []string
	for _, k := range keys {
		parts = append(parts, "of="+url.QueryEscape(k.Text()))
	}
	return "/side-by-side?" + strings.Join(parts, "&")
}

// without is the address without one of them.
func without(keys []SidesKey, i int) string {
	return sidesAddress(slices.Delete(slices.Clone(keys), i, i+1))
}

// moved is the address with one of them a place further left or right; ""
// where there is no such place.
func moved(keys []SidesKey, i, by int) string {
	to := i + by
	if to < 0 || to >= len(keys) {
		return ""
	}
	out := slices.Clone(keys)
	out[i], out[to] = out[to], out[i]
	return sidesAddress(out)
}

// ReadCode reads a candle's code: 14-C, 14c, 14 C; false for what is none.
func ReadCode(text string) (pour int, letter string, ok bool) {
	text = strings.ToUpper(strings.Map(func(r rune) rune {
		if r == ' ' || r == '-' {
			return -1
		}
		return r
	}, text))
	at := strings.IndexFunc(text, func(r rune) bool { return r < '0' || r > '9' })
	if at < 1 || strings.Trim(text[at:], "ABCDEFGHIJKLMNOPQRSTUVWXYZ") != "" {
		return 0, "", false
	}
	n, err := strconv.Atoi(text[:at])
	return n, text[at:], err == nil
}

// Kin are a candle with the others of its pour that were burned, in the order
// of their letters; withdrawn ones are left out.
func Kin(c journal.Candle, lines []journal.CandleLine) []SidesKey {
	out := []SidesKey{{Candle: c.ID}}
	for _, l := range lines {
		if l.Candle.ID != c.ID && l.Life.Burns > 0 && !l.Life.Gone {
			out = append(out, SidesKey{Candle: l.Candle.ID})
		}
	}
	return out
}

// PairingOf finds the pairing that a candle belongs to; nil where there is
// none.
func PairingOf(t standings.Table, candle journal.ID) *standings.Pairing {
	for _, g := range t.Groups {
		for _, s := range g.Series {
			for _, x := range s.Pairings {
				if slices.Contains(x.CandleIDs(), candle) {
					return &x
				}
			}
		}
	}
	return nil
}

// FindPairing finds a pairing by its key, with the address of its own page.
func FindPairing(t standings.Table, k SidesKey) (x standings.Pairing, back string, ok bool) {
	for _, g := range t.Groups {
		for _, s := range g.Series {
			for _, x := range s.Pairings {
				if sidesKeyOf(g, s, x) == k {
					return x, pairingHref(g, s, x), true
				}
			}
		}
	}
	return standings.Pairing{}, "", false
}

// besideActions lead from a candle that was burned to its fellows of one pour.
func besideActions(l journal.CandleLog) []ui.Action {
	if l.Life().Burns == 0 || l.Life().Gone {
		return nil
	}
	return []ui.Action{{Text: "Compare with others of " + pourName(l.Pour), Href: "/side-by-side?kin=" + idText(l.Candle.ID)}}
}
