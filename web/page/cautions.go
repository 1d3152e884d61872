package page

import (
	"rimward/internal/quantity"
	"rimward/internal/safety"
)

// CautionsPage gathers what to mind beside an open flame.
type CautionsPage struct {
	First  string // above everything else
	Groups []CautionGroup
	Wrong  []Emergency
	Limits []LimitLine
}

// CautionGroup is a set of cautions under one heading.
type CautionGroup struct {
	Title, ID string
	Items     []Caution
}

// Caution is one thing to do or to leave, with where it comes from.
type Caution struct{ Text, Source string }

// Emergency is something that goes wrong, and what to do in order.
type Emergency struct {
	Title, ID, Source string
	Steps             []string
	Why               string
}

// Where the cautions come from. What was not read in the first hand says so.
const (
	fromFireService = "fire services’ candle advice, read on a fire department’s page"
	fromTradeBody   = "a candle trade association’s safety page"
	fromTradeTold   = "a candle trade association’s advice, read in a secondary source"
	fromFireBody    = "a fire-protection association’s advice, read in a secondary source"
	fromSootCycle   = "EN 15426 burns 240 min and rests at least 60 min, read in a secondary source"
	fromPractice    = "common practice, no source"
)

// NewCautionsPage builds the page with the limits that hold in this studio.
func NewCautionsPage(lim safety.Limits, v View) CautionsPage {
	return CautionsPage{
		First: "Never leave a burning candle. Never pour water on burning wax.",
		Groups: []CautionGroup{
			{"Before lighting", "before", beforeLighting(lim, v)},
			{"While it is lit", "lit", whileLit(lim, v)},
		},
		Wrong:  emergencies(lim, v),
		Limits: limitLines(lim, v),
	}
}

func beforeLighting(lim safety.Limits, v View) []Caution {
	trim, apart := v.length(lim.Trim()).String(), v.length(quantity.Millimetres(76)).String()
	clear, vent := v.length(quantity.Millimetres(305)).String(), v.length(quantity.Millimetres(254)).String()
	return []Caution{
		{"Trim every wick to " + trim + ", every time.", "ASTM F2326 trims to 6–7 mm before each cycle (abstract); a wick that stands free by less than 6 mm did not smoke in Allan, Univ. of Maryland, 2007 (abstract)"},
		{"Keep trimmings and matches out of the wax. They act as a second wick and can light the pool.", fromTradeTold},
		{"Leave " + clear + " free to anything that can burn.", fromFireBody},
		{"Set lit candles at least " + apart + " apart.", fromTradeTold},
		{"Burn in still air, " + vent + " or more from windows and vents. Moving air makes soot and moves the pool to one side.", fromTradeTold + "; Andersen and others, Indoor Air 31, 2021, on draught and soot (abstract)"},
		{"Stand each candle level on something that heat does not harm.", fromPractice},
		{"Burn where children and animals do not reach.", "the label text of ASTM F2058 (abstract)"},
		{"Have a metal lid at hand that covers the vessel, one for each size that is lit.", fromPractice},
	}
}

func whileLit(lim safety.Limits, v View) []Caution {
	stop, rest := lim.LongestBurn().Clock(), lim.Rest().Clock()
	return []Caution{
		{"Stay in the room. If you must go, put them out first.", fromFireService},
		{"Look at every candle each hour. The bench counts the time.", fromPractice},
		{"Put it out after " + stop + " at the latest, and let it rest for " + rest + " or more. Two hours are better.", fromFireService + "; " + fromSootCycle},
		{"Put it out for good when " + v.length(lim.WaxLeft()).String() + " of wax is left in the vessel.", "candle advice in the press, 2003"},
		{"Do not move a candle while its wax is liquid. Weigh it when it is solid.", fromTradeBody},
		{"If it smokes or flickers: put it out, let it cool, trim, light it again. If it comes back, stop burning that candle.", "candle advice in the press, 2003"},
		{"Do not pick up a hot vessel. Glass at " + v.temperature(60).String() + " burns the skin in about a minute, metal sooner.", "burn thresholds of ISO 13732-1, from memory; that standard sets no limits"},
	}
}

// emergencies are the things that cannot wait, each with its steps in order.
func emergencies(lim safety.Limits, v View) []Emergency {
	return []Emergency{
		{Title: "The wax itself burns", ID: "fire", Source: fromTradeBody + "; general fire-safety pages",
			Steps: []string{
				"Put the metal lid on and leave it on until everything is cold.",
				"No water. Do not blow. Do not move the vessel.",
				"No lid that fits? Cover it with a larger pan or a metal tray.",
				"If it is not out at once, leave the room, close the door and call the fire service at your local number.",
			},
			Why: "Water is heavier than wax. It sinks, turns to steam at once and throws burning wax out of the vessel; the glass can burst too. An extinguisher for liquids (class B: carbon dioxide or dry powder) is the next step after a lid; check what yours is made for before you need it."},
		{Title: "The vessel cracks or leaks", ID: "crack", Source: fromPractice,
			Steps: []string{
				"Snuff the flame without touching the vessel.",
				"Keep your hands and face away, and let it set where it stands.",
				"Burning wax has run out? Treat it as a wax fire.",
				"Throw vessel and candle away when cold. Do not light it again.",
			}},
		{Title: "The flame stands over " + v.length(lim.FlameHard()).String(), ID: "flame", Source: "75 mm is the greatest flame height in EN 15493, read in a secondary source; 3 in in a candle trade association’s advice",
			Steps: []string{
				"Snuff it. Do not blow: hot wax splashes.",
				"Let it cool until the wax is solid.",
				"Trim the wick to " + v.length(lim.Trim()).String() + " before it is lit again.",
				"If it comes again, this wick is too strong for this vessel.",
			}},
	}
}
