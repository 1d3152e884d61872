package safety

// Kind says what a limit is measured in.
type Kind string

// The kinds of limit, each with the unit its number is kept in.
const (
	Length      Kind = "length"      // mm
	Temperature Kind = "temperature" // °C
	Hours       Kind = "hours"       // h
	Seconds     Kind = "seconds"     // s
	Rate        Kind = "rate"        // g/h
)

// Limit is one number that readings are compared with.
type Limit struct {
	Key     string // names it in the settings
	Name    string // what it limits, as a heading
	Kind    Kind
	Default float64 // in the unit of its kind
	Source  string  // who says so
	Status  string  // how far the source can be trusted
}

// How far the source of a limit can be trusted.
const (
	secondary = "read in a secondary source"
	primary   = "read on the body's own page or abstract"
	custom    = "common practice, no source"
	chosen    = "app default"
	plainRead = "general advice"
)

// The keys of the limits.
const (
	keyFlameHard    = "flame_hard"
	keyFlameTall    = "flame_tall"
	keyFlameSmoke   = "flame_smoke"
	keyWallHot      = "wall_hot"
	keyWallStop     = "wall_stop"
	keyMetalHot     = "metal_hot"
	keyMetalStop    = "metal_stop"
	keyLongestBurn  = "longest_burn"
	keyCheckEvery   = "check_every"
	keyRest         = "rest"
	keyRestAdvised  = "rest_advised"
	keyAfterSmoke   = "after_smoke"
	keyWaxLeft      = "wax_left"
	keyTrim         = "trim"
	keyTrimMost     = "trim_most"
	keyPoolDeep     = "pool_deep"
	keyPoolVeryDeep = "pool_very_deep"
	keyRateLow      = "rate_low"
	keyRateHigh     = "rate_high"
	keyRoomCool     = "room_cool"
	keyRoomWarm     = "room_warm"
)

// table lists the limits in the order a page shows them.
var table = []Limit{
	{keyFlameHard, "Tallest flame", Length, 75, "EN 15493; a candle trade association advises at most 3 in (76 mm)", secondary},
	{keyFlameTall, "Tall flame", Length, 51, "2 in", custom},
	{keyFlameSmoke, "Flame that may start to smoke", Length, 36, "Allan, Laminar smoke points of candle flames, Univ. of Maryland 2007: 36 to 89 mm over 14 fuels", primary},
	{keyWallHot, "Hot vessel wall", Temperature, 60, ours, chosen},
	{keyWallStop, "Vessel wall too hot", Temperature, 75, ours, chosen},
	{keyMetalHot, "Hot metal wall", Temperature, 51, ours, chosen},
	{keyMetalStop, "Metal wall too hot", Temperature, 60, ours, chosen},
	{keyLongestBurn, "Longest burn", Hours, 4, "candle advice of a fire department", plainRead},
	{keyCheckEvery, "Time between checks", Hours, 1, "hourly checks of a test burn", custom},
	{keyRest, "Shortest rest between burns", Hours, 1, "test cycle of EN 15426", secondary},
	{keyRestAdvised, "Advised rest between burns", Hours, 2, "candle advice, from memory", plainRead},
	{keyAfterSmoke, "After-smoke, mean over all burns", Seconds, 30, "EN 15493:2019", secondary},
	{keyWaxLeft, "Wax left at the last burn", Length, 13, "1/2 in, candle advice in the press, 2003", plainRead},
	{keyTrim, "Wick trimmed to", Length, 6, "1/4 in, candle advice of a fire department; ASTM F2326 trims to 6 to 7 mm", primary},
	{keyTrimMost, "Longest trimmed wick", Length, 7, "ASTM F2326 trims to 6 to 7 mm before each cycle", primary},
	{keyPoolDeep, "Deep pool", Length, 12.7, "1/2 in", custom},
	{keyPoolVeryDeep, "Very deep pool", Length, 19, "3/4 in", custom},
	{keyRateLow, "Lowest usual burn rate of one wick", Rate, 2, "a margin below the 2.6 g/h published in Fire Sci. & Eng. 30(3), 2016", chosen},
	{keyRateHigh, "Highest usual burn rate of one wick", Rate, 12, "a margin above the 7.3 g/h published for single candles", chosen},
	{keyRoomCool, "Coolest room for a test burn", Temperature, 20, "EN 15493 takes candle fuel as what is solid at 20 to 27 °C; 20 to 25 °C is common practice", secondary},
	{keyRoomWarm, "Warmest room for a test burn", Temperature, 27, "EN 15493 takes candle fuel as what is solid at 20 to 27 °C", secondary},
}

// Table lists every limit in the order a page shows them.
func Table() []Limit { return append([]Limit(nil), table...) }
