package server_test

import (
	"net/url"
	"strings"
	"testing"

	"rimward/internal/journal"
	"rimward/internal/sqlite"
	"rimward/internal/testkit"
)

// mouldSite is a studio with a mould of four cavities and a pour of the day
// before noon.
func mouldSite(t *testing.T) candleSite {
	t.Helper()
	s := newCandleSite(t)
	testkit.Write(t, s.store, func(tx *sqlite.Tx) error {
		if err := tx.SaveMould(&journal.Mould{Name: "Fir cones", Cavities: 4, Detail: journal.Undercut}); err != nil {
			return err
		}
		return tx.SavePour(&journal.Pour{At: candleNoon.AddDate(0, 0, -1), Wax: s.Wax.ID, LoadBasis: journal.OfWax})
	})
	return s
}

func castForm(change ...string) url.Values {
	return formOf(change, "token", "c", "mould", "1", "pieces", "8", "state", "in")
}

func TestMouldsAreAddedCorrectedRetired(t *testing.T) {
	s := emptySite(t)
	s.shows("/shelf", 200, "No mould yet", "/shelf/moulds/new")
	s.shows("/casts", 200, "Put a mould on the shelf first")
	s.sendsBack("/shelf/moulds/new", formOf(nil, "token", "a", "name", "Fir <cones>", "cavities", "0", "detail", "undercut", "cavity_volume", "-3"), 422,
		"Between 1 and 200 cavities.", "Between 0.1 mL and 20 L.", "Fir &lt;cones&gt;", `value="-3"`)
	s.sendsOn("/shelf/moulds/new", formOf(nil, "token", "b", "name", "Fir cones", "cavities", "4", "detail", "undercut", "cavity_volume", "2 fl oz"), "/shelf/moulds/1")
	s.shows("/shelf/moulds/1", 200, "Fir cones", "59", "undercut", "No cast yet", "Not used yet.")
	s.sendsOn("/shelf/moulds/1/edit", formOf(nil, "token", "c", "version", "1", "name", "Fir cones", "cavities", "6", "detail", "relief"), "/shelf/moulds/1")
	s.shows("/shelf/moulds/1", 200, "Corrected", "<del>4</del>", "<ins>6</ins>")
	s.sendsOn("/withdraw/mould/1", formOf(nil, "token", "d", "why", "torn"), "/shelf/moulds/1")
	s.shows("/shelf/moulds/1", 200, "torn", "Bring it back")
	s.sendsOn("/restore/mould/1", formOf(nil), "/shelf/moulds/1")
	s.shows("/shelf/moulds/99", 404)
}

func TestCastsAreRecordedAndTakenOut(t *testing.T) {
	s := mouldSite(t)
	s.shows("/pours/2", 200, "Its moulded pieces", "/pours/2/casts/new", "None recorded")
	s.shows("/pours/2/casts/new", 200, "A cast of pour 2", "Fir cones, 4 cavities", `value="4"`)
	s.sendsOn("/pours/2/casts/new", castForm(), "/casts/1")
	s.shows("/casts/1", 200, "8 pieces of pour 2", "still in the mould", "/casts/1/out", "Add photos of")
	s.shows("/", 200, "Take 8 pieces of pour 2 out of the mould", "/casts/1/out")
	s.shows("/casts/1/out", 200, "Take 8 pieces of pour 2 out of the mould", "24 h 00 ago")
	s.sendsBack("/casts/1/out", formOf(nil, "token", "o", "version", "1", "pieces", "8", "clean", "6", "chipped", "1", "broken", "2", "note", "the <tips>"), 422,
		"Clean, chipped and broken come to 9; 8 were cast.", "the &lt;tips&gt;", `value="6"`)
	s.sendsBack("/casts/1/out", formOf(nil, "token", "o", "version", "1", "pieces", "8", "out_date", "2026-05-12", "out_time", "09:00"), 422, "It was poured only after that.", `value="2026-05-12"`)
	s.sendsBack("/casts/1/out", formOf(nil, "token", "o", "version", "1", "pieces", "8", "out_date", "2026-05-15", "out_time", "09:00"), 422, "This lies in the future.")
	s.sendsOn("/casts/1/out", formOf(nil, "token", "o", "version", "1", "pieces", "8", "clean", "6", "broken", "2", "captured", "full"), "/casts/1")
	s.shows("/casts/1", 200, "24 h 00", "6 clean and 2 broken", "every line came through", "Corrected")
	s.shows("/casts/1/out", 422, "out of the mould already")
	s.shows("/casts", 200, "75 %", "Undercut", "8 pieces, one cast of one pour", "All of one pour", "Try a wax that sets harder.")
	s.shows("/shelf/moulds/1", 200, "75 %", "Used so far in one pour and one cast.")
	if body := s.ask("/", nil).Body.String(); strings.Contains(body, "out of the mould") {
		t.Error("the bench still asks for the pieces")
	}
}

// Pieces that were withdrawn, by themselves or with their pour, are not asked
// about; what is sent all the same comes back whole.
func TestWithdrawnPiecesAreBroughtBackFirst(t *testing.T) {
	s := mouldSite(t)
	s.sendsOn("/pours/2/casts/new", castForm(), "/casts/1")
	s.sendsOn("/withdraw/pour/2", formOf(nil, "token", "p", "why", "too hot"), "/pours/2")
	s.shows("/casts/1/out", 200, "Pour 2 was withdrawn today, and what was cast of it with it. too hot", `action="/restore/pour/2"`)
	s.sendsOn("/withdraw/cast/1", formOf(nil, "token", "c"), "/casts/1")
	s.shows("/casts/1/out", 200, "The cast was withdrawn today.", `action="/restore/cast/1"`, `action="/restore/pour/2"`)
	if body := s.ask("/casts/1/out", nil).Body.String(); strings.Contains(body, "Save how they came") {
		t.Error("the form is offered for pieces that count no more")
	}
	s.sendsBack("/casts/1/out", formOf(nil, "token", "o", "version", "2", "pieces", "8", "clean", "6", "broken", "2"), 422, "bring it back first", `value="6"`, `action="/restore/cast/1"`)
	s.sendsOn("/restore/pour/2", formOf(nil), "/pours/2")
	s.sendsOn("/restore/cast/1", formOf(nil), "/casts/1")
	s.shows("/casts/1/out", 200, "Save how they came")
}

func TestCastsThatCannotBeComeBackWhole(t *testing.T) {
	s := mouldSite(t)
	for name, c := range map[string]struct {
		form url.Values
		says []string
	}{
		"no mould":         {castForm("mould", ""), []string{"Please fill this in."}},
		"an unknown mould": {castForm("mould", "77"), []string{"Choose a mould from the list."}},
		"no pieces":        {castForm("pieces", "0"), []string{"Between 1 and 2,000 pieces.", `value="0"`}},
		"too many":         {castForm("pieces", "2001"), []string{"Between 1 and 2,000 pieces.", `value="2001"`}},
		"below nothing":    {castForm("state", "out", "clean", "-1", "chipped", "8", "broken", "1"), []string{"Not below nothing.", `value="-1"`}},
		"in and counted":   {castForm("clean", "8"), []string{"Say when the pieces came out."}},
		"in and out":       {castForm("out_time", "09:00"), []string{"Choose that they are out, or leave the time empty.", `value="09:00"`}},
	} {
		t.Run(name, func(t *testing.T) { s.sendsBack("/pours/2/casts/new", c.form, 422, c.says...) })
	}
	s.shows("/pours/99/casts/new", 404)
	s.shows("/casts/99", 404)
}

func TestCastsAreCorrectedAndWithdrawn(t *testing.T) {
	s := mouldSite(t)
	s.sendsOn("/pours/2/casts/new", castForm("state", "out", "out_time", "11:30", "clean", "8"), "/casts/1")
	s.shows("/casts/1", 200, "23 h 30", "before a full day was over", "all clean")
	s.shows("/casts/1/edit", 200, "Correct a cast of pour 2", `value="2026-05-14"`)
	s.sendsBack("/casts/1/edit", castForm("version", "0", "pieces", "9"), 409, "changed meanwhile", `value="9"`)
	s.sendsOn("/casts/1/edit", castForm("version", "1", "pieces", "7"), "/casts/1")
	s.shows("/casts/1", 200, "still in the mould", "<del>8 pieces</del>", "<ins>7 pieces</ins>")
	s.sendsOn("/withdraw/cast/1", formOf(nil, "token", "w", "why", "another mould"), "/casts/1")
	s.shows("/casts/1", 200, "another mould", "/restore/cast/1")
	s.shows("/pours/2", 200, "withdrawn · still in the mould")
	s.shows("/casts", 200, "No cast yet.")
	s.sendsOn("/restore/cast/1", formOf(nil), "/casts/1")
	s.shows("/photos/new?of=cast&id=1", 200, "Photos of 7 pieces of pour 2")
}

// A cast is photographed as checks are; not once it was withdrawn.
func TestCastsArePhotographed(t *testing.T) {
	s := mouldSite(t)
	s.sendsOn("/pours/2/casts/new", castForm(), "/casts/1")
	if w := s.upload("cast", 1, sentFile{"a.jpg", grey(90)}); w.Code != 303 || len(s.rows(journal.NounCast, 1)) != 1 {
		t.Fatalf("a photo of a cast answers %d: %s", w.Code, w.Body)
	}
	s.shows("/casts/1", 200, `alt="8 pieces of pour 2"`)
	s.shows("/photos/1", 200, `href="/casts/1"`)
	for _, noun := range []string{"cast", "pour"} {
		id := map[string]string{"cast": "1", "pour": "2"}[noun]
		s.sendsOn("/withdraw/"+noun+"/"+id, formOf(nil, "token", "w"+noun), "/"+noun+"s/"+id)
		if w := s.upload("cast", 1, sentFile{"b.jpg", grey(91)}); w.Code != 422 || len(s.rows(journal.NounCast, 1)) != 1 {
			t.Errorf("a photo of a cast whose %s was withdrawn answers %d", noun, w.Code)
		}
		s.sendsOn("/restore/"+noun+"/"+id, formOf(nil), "/"+noun+"s/"+id)
	}
}
