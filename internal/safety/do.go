package safety

import "rimward/internal/quantity"

// localNumber stands in every list that may end with a fire.
const localNumber = "If it is not out at once, leave the room, close the door and call the fire service at your local number."

// waxFire is what to do when the wax itself burns: as with burning grease,
// smother, never water (a candle trade association's safety page; general fire
// pages).
func waxFire() []string {
	return []string{
		"Smother it: put a metal lid on.",
		"Never pour water on it. Do not blow. Do not move the vessel.",
		"Leave the lid on until everything is cold.",
		localNumber,
	}
}

// crackedNow is what to do when a vessel cracks (common practice, no source).
func crackedNow() []string {
	return []string{
		"Snuff the flame without touching the vessel.",
		"Keep hands and face away, and let the wax set where it stands, on a tray that heat does not harm.",
		"Burning wax runs out? Cover it with something of metal. Never pour water on it. " + localNumber,
		"Throw vessel and candle away when cold. Do not light it again.",
	}
}

// tallFlameNow is what to do about a flame over the limit.
func tallFlameNow(trim quantity.Shown) []string {
	return []string{
		"Snuff it. Do not blow: hot wax splashes.",
		"Let it cool until the wax is solid. Do not move the vessel before.",
		"Trim the wick to " + trim.String() + ".",
		"If it comes again, the pairing fails.",
	}
}

// hotWallNow is what to do about a vessel over its stop temperature.
func hotWallNow(trim quantity.Shown) []string {
	return []string{
		"Snuff the flame without touching the vessel.",
		"Do not move it. Let it cool until the wax is solid.",
		"Trim the wick to " + trim.String() + ".",
		"If it comes again, the wick is too strong for this vessel.",
	}
}

// Always are the lines that stay in view while anything is lit.
func Always() []string {
	return []string{
		"Never leave a burning candle unattended.",
		"Four hours at most, then let it rest.",
		"Still air, clear surroundings, a metal lid at hand.",
		"Never pour water on burning wax: smother it.",
		"Do not move a vessel while its wax is hot.",
		"Stop at 13 mm (1/2 in) of wax.",
	}
}

// BeforeLighting is what to see to before a match is struck.
func BeforeLighting() []string {
	return []string{
		"Trim every wick to 6 mm (1/4 in).",
		"Keep trimmings and matches out of the wax.",
		"Leave 305 mm (12 in) free to anything that can burn, and 76 mm (3 in) between candles.",
		"Burn in still air, away from windows and vents, where children and animals do not reach.",
		"Stand each candle level on something that heat does not harm.",
		"Have a metal lid at hand that covers the vessel. Never pour water on burning wax.",
		"Do not light a vessel that is cracked, or a candle with 13 mm (1/2 in) of wax or less.",
		"Stay in the room while anything is lit.",
	}
}
