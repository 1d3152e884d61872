package page

import (
	"net/url"
	"strconv"

	"github.com/a-h/templ"

	"rimward/internal/journal"
	"rimward/web/ui"
)

// Withdrawable is something that can be taken out of the count.
type Withdrawable struct {
	Noun   journal.Noun
	ID     journal.ID
	Title  string // the question
	Lede   string // what it means
	Submit string
	Done   string // what is said afterwards
	Back   string // where it is shown
}

// RetirableThing is something on the shelf.
func RetirableThing(noun journal.Noun, id journal.ID, name, back string) Withdrawable {
	return Withdrawable{noun, id, "Retire " + name + "?",
		"It disappears from the lists that you choose from. Candles that were made with it keep it, and it can be brought back.",
		"Retire it", name + " is retired.", back}
}

// WithdrawablePour is a pour.
func WithdrawablePour(p journal.Pour) Withdrawable {
	n := "pour " + strconv.Itoa(p.Number)
	return Withdrawable{journal.NounPour, p.ID, "Withdraw " + n + "?",
		"The pour and its candles stay on record but count no more. It can be brought back.",
		"Withdraw it", capital(n) + " is withdrawn.", "/pours/" + idText(p.ID)}
}

// WithdrawableCandle is a candle.
func WithdrawableCandle(c journal.Candle) Withdrawable {
	return Withdrawable{journal.NounCandle, c.ID, "Withdraw candle " + c.Code() + "?",
		"The candle and its burns stay on record but count no more in the standings. It can be brought back.",
		"Withdraw it", "Candle " + c.Code() + " is withdrawn.", "/candles/" + idText(c.ID)}
}

// WithdrawableBurn is a burn of a candle.
func WithdrawableBurn(b journal.Burn, c journal.Candle) Withdrawable {
	n := "burn " + strconv.Itoa(b.Number) + " of " + c.Code()
	return Withdrawable{journal.NounBurn, b.ID, "Withdraw " + n + "?",
		"The burn and its checks stay on record but count no more. It can be brought back.",
		"Withdraw it", capital(n) + " is withdrawn.", "/candles/" + idText(c.ID)}
}

// WithdrawableCheck is a check of the burn that b describes.
func WithdrawableCheck(c journal.Check, b Withdrawable) Withdrawable {
	return Withdrawable{journal.NounCheck, c.ID, "Withdraw this check?",
		"The check stays on record, struck through, but counts no more. It can be brought back.",
		"Withdraw it", "The check is withdrawn.", b.Back}
}

// WithdrawPage asks before something is withdrawn, and for the reason.
func WithdrawPage(x Withdrawable, in Input) templ.Component {
	f := in.Form(ui.Form{
		Action: "/withdraw/" + url.PathEscape(string(x.Noun)) + "/" + idText(x.ID), Cancel: x.Back, Submit: x.Submit,
		Groups: []ui.Group{{Fields: []ui.Field{in.Text("why", "Why? A word or two, if you like", wide, focus)}}},
	})
	return FormOf(x.Title, x.Lede, f)
}
