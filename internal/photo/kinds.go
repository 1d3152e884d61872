package photo

import (
	"bytes"
	"strings"
)

// advice says how to get a picture that can be opened out of a phone.
const advice = "On an iPhone choose Settings, Camera, Formats, Most Compatible for the next pictures; on other phones turn off “high efficiency pictures”. Or send this one as a JPEG."

// kindOf tells from a file's first bytes what it is: "jpeg", "png" or "webp",
// or a *Refused that says what it is instead. Names and endings are not
// believed.
func kindOf(head []byte) (string, error) {
	for _, k := range []struct{ kind, start string }{{"jpeg", "\xff\xd8\xff"}, {"png", "\x89PNG\r\n\x1a\n"}} {
		if bytes.HasPrefix(head, []byte(k.start)) {
			return k.kind, nil
		}
	}
	if len(head) >= 12 && string(head[:4]) == "RIFF" && string(head[8:12]) == "WEBP" {
		return "webp", nil
	}
	if brands := brandsOf(head); brands != nil {
		return "", refuseBrand(brands)
	}
	return "", refuse("%s JPEG, PNG and WebP pictures can be kept.", whatElse(head))
}

// brandsOf lists the brands of an ISO base media file (ISO/IEC 14496-12, box
// ftyp): the major one, then the compatible ones. nil when it is none.
func brandsOf(head []byte) []string {
	if len(head) < 12 || string(head[4:8]) != "ftyp" {
		return nil
	}
	end := min(len(head), int(head[2])<<8|int(head[3]))
	out := []string{string(head[8:12])}
	for at := 16; at+4 <= end; at += 4 {
		out = append(out, string(head[at:at+4]))
	}
	return out
}

// refuseBrand tells HEIF pictures from films (brands: ISO/IEC 23008-12 annex
// B, and the AV1 Image File Format).
func refuseBrand(brands []string) error {
	for _, b := range brands {
		switch b {
		case "avif", "avis":
			return refuse("It is an AVIF picture, which cannot be opened here. %s", advice)
		case "heic", "heix", "heim", "heis", "hevc", "hevx", "hevm", "hevs", "mif1", "msf1", "mif2":
			if !strings.Contains(strings.Join(brands, " "), "avif") {
				return refuse("It is a HEIC picture, which cannot be opened here. %s", advice)
			}
		}
	}
	return refuse("It is a film. JPEG, PNG and WebP pictures can be kept.")
}

// whatElse names the commoner files that are sent by mistake.
func whatElse(head []byte) string {
	for _, k := range []struct{ start, says string }{
		{"GIF8", "It is a GIF."}, {"%PDF", "It is a PDF."}, {"BM", "It is a BMP."}, {"II*\x00", "It is a TIFF or a raw picture."},
		{"MM\x00*", "It is a TIFF or a raw picture."}, {"PK\x03\x04", "It is a ZIP archive."}, {"\xff\x0a", "It is a JPEG XL picture."},
		{"\x00\x00\x00\x0cJXL ", "It is a JPEG XL picture."},
	} {
		if bytes.HasPrefix(head, []byte(k.start)) {
			return k.says
		}
	}
	if bytes.Contains(bytes.ToLower(head), []byte("<svg")) {
		return "It is an SVG drawing."
	}
	return "It is not a picture that is known here."
}
