package quantity

import (
	"math"
	"strconv"
	"strings"
)

// EditNumber writes a number for a box so that reading it back gives the same
// to one part in a million or better, and short numbers stay short.
func EditNumber(v float64) string {
	s := strconv.FormatFloat(v, 'g', 9, 64)
	if strings.ContainsAny(s, "eE") {
		s = strconv.FormatFloat(v, 'f', -1, 64)
	}
	return s
}

// EditLength writes a length for a box in the preferred unit: inches as a
// fraction where they are one to the sixteenth, else (and below nothing) as a
// decimal.
func (u Units) EditLength(x Millimetres) string {
	if u.Length != InInches {
		return EditNumber(float64(x))
	}
	n := float64(x) / sixteenth
	if n >= 0 && math.Abs(n-math.Round(n))*sixteenth < 1e-6 {
		return inches(x)
	}
	return EditNumber(float64(x) / mmPerInch)
}

// EditMass writes a mass for a box in the preferred unit.
func (u Units) EditMass(x Grams) string {
	if u.Mass == InOunces {
		return EditNumber(float64(x) / gPerOunce)
	}
	return EditNumber(float64(x))
}

// EditTemperature writes a temperature for a box so that reading it back gives
// the very same: in the preferred scale where a short number does, else in the
// scale that it was typed in, with its letter, so that 150 °F typed in a studio
// of Celsius stays 150 °F.
func (u Units) EditTemperature(x Celsius) string {
	own, other := InCelsius, InFahrenheit
	if u.Temperature == InFahrenheit {
		own, other = other, own
	}
	for _, text := range []string{EditNumber(own.degrees(x)), EditNumber(other.degrees(x)) + " °" + string(other)} {
		if back, err := ParseTemperature(text, own); err == nil && back == x {
			return text
		}
	}
	exact := strconv.FormatFloat(float64(x), 'f', -1, 64)
	if own == InCelsius {
		return exact
	}
	return exact + " °" + string(other)
}

// EditTemperatures writes several temperatures for one box, parted by
// semicolons. A number without a letter takes that of the last which has one,
// so all bear theirs as soon as one does.
func (u Units) EditTemperatures(xs ...Celsius) string {
	texts, lettered := make([]string, len(xs)), false
	for i, x := range xs {
		texts[i] = u.EditTemperature(x)
		lettered = lettered || strings.Contains(texts[i], "°")
	}
	for i, text := range texts {
		if lettered && !strings.Contains(text, "°") {
			texts[i] = text + " °" + string(u.Temperature)
		}
	}
	return strings.Join(texts, "; ")
}

// degrees is a temperature in degrees of a scale, not rounded.
func (t TemperatureUnit) degrees(x Celsius) float64 {
	if t == InFahrenheit {
		return float64(x)*1.8 + 32
	}
	return float64(x)
}

// EditVolume writes a volume for a box in the preferred unit.
func (u Units) EditVolume(x Millilitres) string {
	if u.Volume == InFluidOunces {
		return EditNumber(float64(x) / mLPerFluid)
	}
	return EditNumber(float64(x))
}

// EditPercent writes a share for a box, in per cent.
func EditPercent(f Fraction) string { return EditNumber(float64(f) * 100) }

// clockHours is where EditHours turns to decimals: nobody counts minutes
// beyond a year of hours.
const clockHours = 9999

// EditHours writes a span for a box: 2 h 30 where it is whole minutes, else
// decimal hours.
func EditHours(h Hours) string {
	minutes := float64(h) * 60
	if h < 0 || h > clockHours || math.Abs(minutes-math.Round(minutes)) > 1e-9*minutes {
		return EditNumber(float64(h))
	}
	n := int(math.Round(minutes))
	if n%60 == 0 {
		return strconv.Itoa(n / 60)
	}
	if n < 60 {
		return strconv.Itoa(n) + " min"
	}
	return strconv.Itoa(n/60) + " h " + strconv.Itoa(n%60)
}
