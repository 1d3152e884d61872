package page

import (
	"rimward/internal/journal"
	"rimward/web/ui"
)

// standingsFilters are the selects that choose what is compared; only what was
// burned is offered.
func standingsFilters(c StandingsChoice, tried []journal.Tried, sh Shelves, v View) []ui.Field {
	var vessels, waxes, settings names
	for _, t := range tried {
		vessels.add(idText(t.Vessel), vesselOption(sh, t.Vessel, v))
		waxes.add(idText(t.Wax), waxName(sh, t.Wax))
	}
	for _, t := range c.within(tried) {
		text := oilText(t, sh)
		if c.Apart == journal.ByFragrance && t.Fragrance != nil {
			text = fragranceName(sh, *t.Fragrance)
		}
		settings.add(c.settingOf(t), text)
	}
	out := []ui.Field{
		vessels.field("vessel", "Vessel", "all vessels", chosenID(c.Vessel)), waxes.field("wax", "Wax", "all waxes", chosenID(c.Wax)),
	}
	if c.Apart == journal.ByWax {
		return out
	}
	label := "Fragrance and load"
	if c.Apart == journal.ByFragrance {
		label = "Fragrance"
	}
	return append(out, settings.field("setting", label, "all, each apart", c.Setting))
}

// vesselOption names a vessel, with its width where another has the same name.
func vesselOption(sh Shelves, id journal.ID, v View) string {
	name, width, same := vesselName(sh, id), "", 0
	for _, x := range sh.Vessels {
		if x.Name == name {
			same++
		}
		if x.ID == id {
			width = wallText(x, v)
		}
	}
	if same < 2 {
		return name
	}
	return name + ", " + width
}

func chosenID(id journal.ID) string {
	if id == 0 {
		return ""
	}
	return idText(id)
}

// names gathers options, each once.
type names struct{ options []ui.Option }

func (n *names) add(value, text string) {
	for _, o := range n.options {
		if o.Value == value {
			return
		}
	}
	n.options = append(n.options, ui.Option{Value: value, Text: text})
}

func (n names) field(name, label, all, now string) ui.Field {
	return ui.Field{Kind: ui.SelectField, Name: name, Label: label, Options: chosen(append([]ui.Option{{Text: all}}, n.options...), now)}
}

func vesselName(sh Shelves, id journal.ID) string {
	return nameOf(sh.Vessels, id, func(x journal.Vessel) (journal.ID, string) { return x.ID, x.Name })
}

func waxName(sh Shelves, id journal.ID) string {
	return nameOf(sh.Waxes, id, func(x journal.Wax) (journal.ID, string) { return x.ID, x.Name })
}

func fragranceName(sh Shelves, id journal.ID) string {
	return nameOf(sh.Fragrances, id, func(x journal.Fragrance) (journal.ID, string) { return x.ID, x.Name })
}

// nameOf finds a thing's name on the shelf; its number where it is not there.
func nameOf[T any](list []T, id journal.ID, of func(T) (journal.ID, string)) string {
	for _, x := range list {
		if i, name := of(x); i == id {
			return name
		}
	}
	return "no. " + idText(id)
}
