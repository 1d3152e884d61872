package quantity

import (
	"math"
	"regexp"
	"strings"
)

var (
	hoursMinutes   = regexp.MustCompile(`^(\d{1,4})\s*(?:h|hrs?|hours?|:)\s*(\d{1,2})\s*(?:m|mins?|minutes?)?$`)
	minutesSeconds = regexp.MustCompile(`^(\d{1,4})\s*(?:min|m|:)\s*(\d{1,2})\s*(?:s|secs?|seconds?)?$`)
)

// ParseHours reads a span of hours: 3, 3 h, 2 h 30, 2:30, 90 min, 2,5 h.
// Errors are *ParseError.
func ParseHours(text string) (Hours, error) {
	const sentence = "Write hours such as 3, 2 h 30 or 90 min."
	s := strings.ToLower(tidy(text))
	if m := hoursMinutes.FindStringSubmatch(s); m != nil {
		h, _ := number(m[1])
		min, _ := number(m[2])
		if min >= 60 {
			return 0, unread(sentence)
		}
		return Hours(h + min/60), nil
	}
	v, err := measure(s, "h", sentence, map[string]float64{
		"h": 1, "hr": 1, "hrs": 1, "hour": 1, "hours": 1, "min": 1.0 / 60, "mins": 1.0 / 60, "minute": 1.0 / 60, "minutes": 1.0 / 60, "m": 1.0 / 60, "d": 24, "day": 24, "days": 24})
	return Hours(v), err
}

// Nearest is the nearest whole hour, halves away from nought.
func (x Hours) Nearest() int { return int(math.Round(float64(x))) }

// ParseSeconds reads a span of seconds: 24, 24 s, 1 min 10, 1:10. Errors are
// *ParseError.
func ParseSeconds(text string) (Seconds, error) {
	const sentence = "Write seconds such as 24, or 1 min 10."
	s := strings.ToLower(tidy(text))
	if m := minutesSeconds.FindStringSubmatch(s); m != nil {
		min, _ := number(m[1])
		sec, _ := number(m[2])
		if sec >= 60 {
			return 0, unread(sentence)
		}
		return Seconds(min*60 + sec), nil
	}
	v, err := measure(s, "s", sentence, map[string]float64{"s": 1, "sec": 1, "secs": 1, "second": 1, "seconds": 1, "min": 60, "mins": 60, "minute": 60, "minutes": 60, "m": 60})
	return Seconds(v), err
}
