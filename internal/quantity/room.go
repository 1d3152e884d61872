package quantity

import (
	"regexp"
	"strings"
)

// CubicMetres is the volume of a room.
type CubicMetres float64

// Minutes is a span of time in minutes.
type Minutes float64

// cubicMetresPerCubicFoot is exact: the international foot is 0.3048 m (NIST SP
// 811, appendix B.8).
const cubicMetresPerCubicFoot = 0.3048 * 0.3048 * 0.3048

var rooms = map[string]float64{
	"m3": 1, "m^3": 1, "cubic metres": 1, "cubic metre": 1, "cubic meters": 1, "cubic meter": 1, "cu m": 1, "cbm": 1,
	"ft3": cubicMetresPerCubicFoot, "ft^3": cubicMetresPerCubicFoot, "cu ft": cubicMetresPerCubicFoot, "cu.ft": cubicMetresPerCubicFoot,
	"cu. ft.": cubicMetresPerCubicFoot, "cu. ft": cubicMetresPerCubicFoot, "cuft": cubicMetresPerCubicFoot, "cubic feet": cubicMetresPerCubicFoot, "cubic foot": cubicMetresPerCubicFoot,
}

// sides are three lengths with signs of multiplication between them, and the
// unit that all three share.
var sides = regexp.MustCompile(`^([\d.,]+)\s*(?:m|ft)?\s*[x×*]\s*([\d.,]+)\s*(?:m|ft)?\s*[x×*]\s*([\d.,]+)\s*(m|ft)?$`)

// RoomWord is the unit that rooms are typed and shown in: cubic feet beside
// inches, cubic metres beside millimetres.
func (u Units) RoomWord() string {
	if u.Length == InInches {
		return "cu ft"
	}
	return "m³"
}

// ParseRoom reads the volume of a room: 30, 30 m3, 1000 cu ft, or its three
// sides, 4 x 3 x 2.5 m. A bare number is in the unit of RoomWord. Errors are
// *ParseError.
func (u Units) ParseRoom(text string) (CubicMetres, error) {
	const sentence = "Write a room such as 30 m³, 1000 cu ft, or its sides, 4 x 3 x 2.5 m."
	s := strings.ToLower(strings.ReplaceAll(tidy(text), "³", "3"))
	bare, side := "m3", "m"
	if u.Length == InInches {
		bare, side = "cu ft", "ft"
	}
	if m := sides.FindStringSubmatch(s); m != nil {
		return fromSides(m, side, sentence)
	}
	v, unit, ok := split(s)
	if unit == "" {
		unit = bare
	}
	factor, known := rooms[unit]
	if !ok || !known {
		return 0, unread(sentence)
	}
	return CubicMetres(v * factor), nil
}

// fromSides multiplies three sides.
func fromSides(m []string, bare, sentence string) (CubicMetres, error) {
	v := 1.0
	for _, side := range m[1:4] {
		n, ok := number(side)
		if !ok {
			return 0, unread(sentence)
		}
		v *= n
	}
	if m[4] == "ft" || m[4] == "" && bare == "ft" {
		v *= cubicMetresPerCubicFoot
	}
	if v >= biggest {
		return 0, unread(sentence)
	}
	return CubicMetres(v), nil
}

// ShowRoom shows the volume of a room: cubic metres to a tenth, cubic feet
// whole.
func (u Units) ShowRoom(x CubicMetres) Shown {
	if u.Length == InInches {
		return Shown{Number(float64(x)/cubicMetresPerCubicFoot, 0), u.RoomWord()}
	}
	return Shown{Number(float64(x), 1), u.RoomWord()}
}

// EditRoom writes the volume of a room into a box, so that reading it back
// changes nothing.
func (u Units) EditRoom(x CubicMetres) string {
	if u.Length == InInches {
		return EditNumber(float64(x) / cubicMetresPerCubicFoot)
	}
	return EditNumber(float64(x))
}

// ParseMinutes reads a span of minutes: 90, 90 min, 1 h 30, 1:30. Errors are
// *ParseError.
func ParseMinutes(text string) (Minutes, error) {
	s := strings.ToLower(tidy(text))
	const sentence = "Write minutes such as 90, or 1 h 30."
	if m := hoursMinutes.FindStringSubmatch(s); m != nil {
		h, _ := number(m[1])
		min, _ := number(m[2])
		if min >= 60 {
			return 0, unread(sentence)
		}
		return Minutes(h*60 + min), nil
	}
	v, err := measure(s, "min", sentence, map[string]float64{"min": 1, "mins": 1, "minute": 1, "minutes": 1, "m": 1, "h": 60, "hr": 60, "hrs": 60, "hour": 60, "hours": 60})
	return Minutes(v), err
}

// Shown shows whole minutes.
func (m Minutes) Shown() Shown { return Shown{Number(float64(m), 0), "min"} }

// String is the number with its unit.
func (m Minutes) String() string { return m.Shown().String() }

// String is the number with its unit.
func (x CubicMetres) String() string { return Metric.ShowRoom(x).String() }

// Score writes a score on a scale of whole numbers, or the middle of several,
// to a half or a quarter: 3, 3.5, 2.75.
func Score(v float64) string { return Number(v, 2) }
