package server_test

import (
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"testing"
	"time"

	"rimward/internal/journal"
	"rimward/internal/sqlite"
	"rimward/internal/testkit"
)

// burnedSite is a studio with one burn of candle 1-A, and the address of its
// pairing without the path.
func burnedSite(t *testing.T) (s candleSite, pairing string) {
	t.Helper()
	s = newCandleSite(t)
	s.sendsOn("/candles/1/paper", paperForm("k3.at_time", "01:30"), "/candles/1")
	return s, strings.TrimPrefix(s.pairingLink(), "/standings/pairing?")
}

// verdictForm is a verdict on a pairing as it is posted.
func verdictForm(t *testing.T, pairing string, change ...string) url.Values {
	t.Helper()
	q, err := url.ParseQuery(pairing)
	if err != nil {
		t.Fatal(err)
	}
	v := formOf(change, "token", "v", "ruling", "accepted", "decided_by", "Maren", "why", "", "tip_test", "1", "base_check", "1")
	for name, values := range q {
		v[name] = values
	}
	return v
}

func TestAVerdictIsMadeAndShown(t *testing.T) {
	s, pairing := burnedSite(t)
	s.shows("/verdicts", 200, "No verdict was made yet", "To the standings")
	s.shows("/standings/pairing?"+pairing, 200, "No verdict yet.", "Wanted before accepting", "Write a verdict", "1 candle. Common practice", "Spec sheet, a draft")
	s.shows("/verdicts/new?"+pairing, 200, "A verdict on Larkspur 6 in Pebble tumbler", "Meadow blend, no fragrance", `name="series" value="1.1.none"`)
	s.sendsOn("/verdicts/new", verdictForm(t, pairing, "why", "A neighbour likes it.", "claimed_hours", "", "ruling", "rejected"), "/verdicts/1")
	s.shows("/verdicts/1", 200, "rejected", "A neighbour likes it.", "Nothing has moved since.", "Missing at the time", "three candles burned", "Written down")
	s.shows("/verdicts", 200, "Rejected", "14 May 2026, Maren", "Nothing has moved since.")
	s.shows("/standings", 200, `class="verdict-word is-rejected"`)
	s.shows("/standings/pairing?"+pairing, 200, "by Maren on 14 May 2026.", "The figures of 14 May 2026 beside those of now", "Write another verdict")
	// The same form twice is one verdict; another one is another.
	s.sendsOn("/verdicts/new", verdictForm(t, pairing, "why", "A neighbour likes it.", "claimed_hours", "", "ruling", "rejected"), "/verdicts/1")
	s.sendsOn("/verdicts/new", verdictForm(t, pairing, "ruling", "open", "token", "w"), "/verdicts/2")
	s.shows("/verdicts/1", 200, "A later verdict on the same pairing counts instead.")
	s.shows("/standings/pairing?"+pairing, 200, "left open", "Earlier verdicts", "Rejected by Maren")
}

func TestAVerdictThatIsWrongComesBackAsTyped(t *testing.T) {
	s, pairing := burnedSite(t)
	for _, c := range []struct{ name, field, value, says string }{
		{"without a ruling", "ruling", "", "Choose what you decided."},
		{"with another ruling", "ruling", "perhaps", "Choose one from the list."},
		{"by nobody", "decided_by", "", "Please fill this in."},
		{"rejected without a reason", "ruling", "rejected", "Write why it is rejected"},
		{"accepted with something missing", "why", "", "Something is still missing. Write why you accept it all the same."},
		{"with a claim that is no time", "claimed_hours", "a while", `value="a while"`},
		{"with a claim of no length", "claimed_hours", "0", "Between half an hour and 2,000 h."},
	} {
		t.Run(c.name, func(t *testing.T) {
			form := verdictForm(t, pairing, "decided_by", "Maren", c.field, c.value)
			s.sendsBack("/verdicts/new", form, http.StatusUnprocessableEntity, c.says, "Not saved yet", "A verdict on Larkspur 6")
		})
	}
	if list, err := s.store.Verdicts(t.Context()); err != nil || len(list) != 0 {
		t.Errorf("%d verdicts were kept (%v)", len(list), err)
	}
	s.shows("/verdicts/new?vessel=1&series=no&wick=1", 404)
	s.sendsBack("/verdicts/new", url.Values{"token": {"x"}}, 404)
	s.shows("/verdicts/9", 404)
	s.shows("/verdicts/9/sheet", 404)
	s.shows("/verdicts/none/edit", 404)
	s.shows("/spec", 404)
}

// A claim that nothing speaks for is asked about once.
func TestABoldClaimIsAskedAboutOnce(t *testing.T) {
	s, pairing := burnedSite(t)
	form := verdictForm(t, pairing, "why", "for the fair", "claimed_hours", "40")
	w := s.ask("/verdicts/new", form)
	s.hold("the claim", w, 422, []string{"Unusual, so we ask once", "nothing speaks for this time", `value="40"`, "for the fair"})
	asked := regexp.MustCompile(`name="asked" value="([^"]*)"`).FindStringSubmatch(w.Body.String())
	if asked == nil {
		t.Fatal("the question does not travel with the form")
	}
	form.Set("asked", asked[1])
	s.sendsOn("/verdicts/new", form, "/verdicts/1")
}

// No reason gets an acceptance past a hard finding, and one that is recorded
// later is said beside the verdict.
func TestAHardFindingStandsInTheWay(t *testing.T) {
	s, pairing := burnedSite(t)
	s.sendsOn("/verdicts/new", verdictForm(t, pairing, "why", "for the fair"), "/verdicts/1")
	s.shows("/verdicts/1/sheet", 200, "Spec sheet")
	testkit.Write(t, s.store, func(tx *sqlite.Tx) error {
		b, err := s.store.Burn(t.Context(), 1)
		if err != nil {
			return err
		}
		return tx.SaveCheck(&journal.Check{Burn: 1, At: b.LitAt.Add(100 * time.Minute), Full: true, Odd: []journal.Odd{journal.Cracked}})
	})
	s.shows("/verdicts/1", 200, "hard finding is new.", "moved, and it matters")
	s.shows("/standings/pairing?"+pairing, 200, "A hard finding stands against it", "stands against it")
	s.sendsBack("/verdicts/new", verdictForm(t, pairing, "why", "all the same", "token", "w"), 422, "It cannot be accepted while a hard finding stands against it:", "crack", "all the same")
	s.sendsOn("/verdicts/new", verdictForm(t, pairing, "why", "it cracked", "ruling", "rejected", "token", "w"), "/verdicts/2")
}

func TestAVerdictIsCorrectedWithdrawnAndBroughtBack(t *testing.T) {
	s, pairing := burnedSite(t)
	s.sendsOn("/verdicts/new", verdictForm(t, pairing, "why", "for the fair"), "/verdicts/1")
	s.shows("/verdicts/1/edit", 200, "Correct the verdict on Larkspur 6", `name="version" value="1"`, "for the fair", "a change of mind is a verdict of its own")
	edit := url.Values{"token": {"e"}, "version": {"1"}, "decided_by": {"Tilda"}, "why": {"for the spring fair"}}
	s.sendsOn("/verdicts/1/edit", edit, "/verdicts/1")
	s.shows("/verdicts/1", 200, "Tilda", "accepted", "for the spring fair", "Corrected", "not ticked")
	edit.Set("token", "f")
	s.sendsBack("/verdicts/1/edit", edit, 409, "changed meanwhile", "for the spring fair")
	edit.Set("version", "2")
	edit.Set("why", "")
	s.sendsBack("/verdicts/1/edit", edit, 422, "Something is still missing.")
	s.shows("/withdraw/verdict/1", 200, "Withdraw the verdict on Larkspur 6 in Pebble tumbler?")
	s.sendsOn("/withdraw/verdict/1", url.Values{"token": {"w"}, "why": {"wrong wick"}}, "/verdicts/1")
	s.shows("/verdicts/1", 200, "Withdrawn today. wrong wick", "Bring it back")
	s.shows("/verdicts/1/sheet", 200, "Not accepted: draft.", "the verdict was withdrawn")
	s.shows("/verdicts", 200, "No verdict was made yet")
	s.sendsOn("/restore/verdict/1", url.Values{}, "/verdicts/1")
	s.shows("/verdicts", 200, "Accepted", "Larkspur 6 in Pebble tumbler", "/verdicts/1/sheet")
}

func TestOnlyAnAcceptedPairingHasAPlainSheet(t *testing.T) {
	s, pairing := burnedSite(t)
	s.shows("/spec?"+pairing, 200, "Not accepted: draft.", "no verdict was made yet", "no certificate", "does not say that the candle complies with any standard", "Never pour water on burning wax", "Local label rules")
	s.sendsOn("/verdicts/new", verdictForm(t, pairing, "ruling", "open", "token", "o"), "/verdicts/1")
	s.shows("/verdicts/1/sheet", 200, "Not accepted: draft.", "the pairing was left open")
	s.sendsOn("/verdicts/new", verdictForm(t, pairing, "why", "for the fair", "token", "a"), "/verdicts/2")
	for _, path := range []string{"/verdicts/2/sheet", "/spec?" + pairing} {
		if body := s.ask(path, nil).Body.String(); strings.Contains(body, "draft") || !strings.Contains(body, "Spec sheet") {
			t.Errorf("%s is a draft:\n%s", path, body)
		}
	}
	s.shows("/verdicts/1/sheet", 200, "a later verdict counts instead")
}
