package standings

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// Setting is a wax with a fragrance load that candles were made of.
type Setting struct {
	Wax       journal.Wax
	Fragrance *journal.Fragrance
	Load      *quantity.Fraction // of the wax; nil when not recorded
}

// settingKey tells settings apart, as far as the studio wants them to be.
type settingKey struct {
	wax, oil journal.ID
	load     int // in hundred-thousandths, so that 8 % of wax written either way is one
}

func settingOf(m journal.Made) Setting {
	return Setting{Wax: m.Wax, Fragrance: m.Fragrance, Load: m.Pour.LoadOn(journal.OfWax)}
}

func (s Setting) key(apart journal.Apart) settingKey {
	k := settingKey{wax: s.Wax.ID}
	if apart == journal.ByWax || s.Fragrance == nil {
		return k
	}
	if k.oil = s.Fragrance.ID; apart == journal.ByFragrance {
		return k
	}
	if k.load = -1; s.Load != nil {
		k.load = int(math.Round(float64(*s.Load) * 1e5))
	}
	return k
}

// text names the key in an address: the fragrance, and the load where that is
// kept apart.
func (k settingKey) text() string {
	switch {
	case k.oil == 0:
		return "none"
	case k.load == 0:
		return strconv.FormatInt(int64(k.oil), 10)
	}
	return strconv.FormatInt(int64(k.oil), 10) + "-" + strconv.Itoa(k.load)
}

// TriedKey names the setting of candles that were tried, as Stack.Setting
// does.
func TriedKey(t journal.Tried, apart journal.Apart) string {
	s := Setting{Wax: journal.Wax{Meta: journal.Meta{ID: t.Wax}}}
	if t.Fragrance != nil {
		s.Fragrance = &journal.Fragrance{Meta: journal.Meta{ID: *t.Fragrance}}
	}
	if t.Load != nil {
		load := journal.ConvertLoad(quantity.Fraction(*t.Load), t.Basis, journal.OfWax)
		s.Load = &load
	}
	return s.key(apart).text()
}

// settings lists the different waxes and loads of candles, in order of their
// names.
func settings(ds []Digest) []Setting {
	var ss []Setting
	for _, d := range ds {
		ss = append(ss, settingOf(d.made))
	}
	return once(ss)
}

func compareSettings(a, b Setting) int {
	return cmp.Or(cmp.Compare(a.Wax.Name, b.Wax.Name), cmp.Compare(a.Wax.ID, b.Wax.ID),
		cmp.Compare(fragranceID(a), fragranceID(b)), cmp.Compare(loadNumber(a), loadNumber(b)))
}

func fragranceID(s Setting) journal.ID {
	if s.Fragrance == nil {
		return 0
	}
	return s.Fragrance.ID
}

func loadNumber(s Setting) float64 {
	if s.Load == nil {
		return -1
	}
	return float64(*s.Load)
}

// once lists different settings, each once, in order of their names.
func once(ss []Setting) []Setting {
	seen := map[settingKey]bool{}
	var out []Setting
	for _, s := range ss {
		k := s.key(journal.ByLoad)
		if !seen[k] {
			seen[k] = true
			out = append(out, s)
		}
	}
	slices.SortStableFunc(out, compareSettings)
	return out
}

// mixed says which settings are taken together; "" when there is only one.
func mixed(ss []Setting) string {
	if len(ss) < 2 {
		return ""
	}
	oils := distinct(ss, Setting.oil)
	if len(oils) < 2 {
		return "Loads that differ a little are taken together."
	}
	return "Different fragrances or loads are taken together: " + strings.Join(oils, " and ") + "."
}

// oil is a setting's fragrance and load in words.
func (s Setting) oil() string {
	switch {
	case s.Fragrance == nil:
		return "no fragrance"
	case s.Load == nil:
		return s.Fragrance.Name + ", load not noted"
	}
	return s.Fragrance.Name + ", " + s.Load.Percent().String() + " of the wax"
}

// distinct lists the different words of settings in the order they come.
func distinct(ss []Setting, word func(Setting) string) []string {
	var out []string
	for _, s := range ss {
		if w := word(s); !slices.Contains(out, w) {
			out = append(out, w)
		}
	}
	return out
}
