package journal

import (
	"regexp"
	"slices"
	"strings"
	"time"
	"unicode/utf8"
)

// The longer sides of what is kept of a photo, in pixels.
const (
	PhotoSide = 1600 // of the picture
	SmallSide = 320  // of the thumbnail
)

// photoNote is how long the note of a photo may be, in characters.
const photoNote = 2000

// Photo is one picture of something that was inspected. The picture itself is
// a file, found by its hash.
type Photo struct {
	Meta
	Of     Noun      `json:"of"`     // the kind of what it shows
	OfID   ID        `json:"of_id"`  // and which one
	Hash   string    `json:"hash"`   // SHA-256 of the kept JPEG, in lower-case hex
	Width  int       `json:"width"`  // px, as kept
	Height int       `json:"height"` // px, as kept
	At     time.Time `json:"at"`     // when it was attached
	Note   string    `json:"note,omitempty"`
	// Marks are what was marked on the picture to measure its pool.
	Marks PhotoMarks `json:"marks,omitzero"`
}

// Small is the size of the photo's thumbnail in pixels.
func (p Photo) Small() (width, height int) { return Within(p.Width, p.Height, SmallSide) }

// Within is the size in pixels of a picture that is made to fit a square of
// the given side: never larger than it was, never without an extent.
func Within(width, height, side int) (w, h int) {
	longer := max(width, height)
	if longer <= side {
		return width, height
	}
	fit := func(n int) int { return max(1, (n*side+longer/2)/longer) }
	return fit(width), fit(height)
}

// PhotoFacts is what the rules of a photo need to know beside the photo.
type PhotoFacts struct {
	Gone bool // what it shows was withdrawn, or something that belongs to
}

var photoHash = regexp.MustCompile(`^[0-9a-f]{64}$`)

// IsPhotoHash reports whether a text has the form of a photo's hash.
func IsPhotoHash(text string) bool { return photoHash.MatchString(text) }

// Validate holds the rules of a photo.
func (p Photo) Validate(f PhotoFacts) error {
	var ps problems
	ps.addIf(f.Gone, "", "What the photo shows was withdrawn, by itself or with its burn, its candle or its pour. Bring that back first.")
	ps.addIf(!IsPhotoHash(p.Hash) || !sideFits(p.Width) || !sideFits(p.Height), "", "The picture of this photo is not known.")
	ps.addIf(!p.Takes(p.Marks), "", "The marks do not lie on the picture, or are more than 60 on one line.")
	ps.addIf(utf8.RuneCountInString(p.Note) > photoNote, "note", "At most 2,000 characters.")
	return ps.err()
}

func sideFits(px int) bool { return px >= 1 && px <= PhotoSide }

// Tidied is the photo with its note trimmed.
func (p Photo) Tidied() Photo {
	p.Note = strings.TrimSpace(p.Note)
	return p
}

// PhotoHashes lists the hashes of photos, each once.
func PhotoHashes(list []Photo) []string {
	var out []string
	for _, p := range list {
		out = append(out, p.Hash)
	}
	slices.Sort(out)
	return slices.Compact(out)
}
