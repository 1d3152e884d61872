package page

import "strings"

// zones are the time zones offered by name, by part of the world; any other
// can be typed. Names are those of the IANA time zone database.
var zones = []struct {
	part  string
	names []string
}{
	{"Europe", []string{
		"Europe/Amsterdam", "Europe/Athens", "Europe/Belgrade", "Europe/Berlin", "Europe/Brussels", "Europe/Bucharest",
		"Europe/Budapest", "Europe/Copenhagen", "Europe/Dublin", "Europe/Helsinki", "Europe/Istanbul", "Europe/Kyiv",
		"Europe/Lisbon", "Europe/London", "Europe/Luxembourg", "Europe/Madrid", "Europe/Oslo", "Europe/Paris",
		"Europe/Prague", "Europe/Riga", "Europe/Rome", "Europe/Sofia", "Europe/Stockholm", "Europe/Tallinn",
		"Europe/Vienna", "Europe/Vilnius", "Europe/Warsaw", "Europe/Zagreb", "Europe/Zurich", "Atlantic/Reykjavik",
	}},
	{"America", []string{
		"America/New_York", "America/Chicago", "America/Denver", "America/Phoenix", "America/Los_Angeles", "America/Anchorage",
		"Pacific/Honolulu", "America/Halifax", "America/St_Johns", "America/Toronto", "America/Winnipeg", "America/Edmonton",
		"America/Vancouver", "America/Mexico_City", "America/Panama", "America/Bogota", "America/Lima", "America/Caracas",
		"America/Santiago", "America/Argentina/Buenos_Aires", "America/Montevideo", "America/Sao_Paulo",
	}},
	{"Africa", []string{
		"Africa/Accra", "Africa/Cairo", "Africa/Casablanca", "Africa/Johannesburg", "Africa/Lagos", "Africa/Nairobi", "Africa/Tunis",
	}},
	{"Asia", []string{
		"Asia/Jerusalem", "Asia/Dubai", "Asia/Karachi", "Asia/Kolkata", "Asia/Kathmandu", "Asia/Dhaka", "Asia/Bangkok",
		"Asia/Jakarta", "Asia/Singapore", "Asia/Kuala_Lumpur", "Asia/Manila", "Asia/Hong_Kong", "Asia/Shanghai", "Asia/Taipei",
		"Asia/Seoul", "Asia/Tokyo",
	}},
	{"Australia and the Pacific", []string{
		"Australia/Perth", "Australia/Darwin", "Australia/Adelaide", "Australia/Brisbane", "Australia/Sydney",
		"Australia/Melbourne", "Australia/Hobart", "Pacific/Auckland",
	}},
}

// zoneText is a zone's name as it is read: New York (America/New_York).
func zoneText(name string) string {
	_, city, found := strings.Cut(name, "/")
	if !found {
		return name
	}
	if i := strings.LastIndex(city, "/"); i >= 0 {
		city = city[i+1:]
	}
	return strings.ReplaceAll(city, "_", " ") + " (" + name + ")"
}
