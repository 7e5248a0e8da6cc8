package limits

import (
	"strings"

	"borewright/process/fit/iso286"
	"borewright/process/fit/standard"
)

// standardOf is the standard that a fit is of.
func standardOf(f standard.Fit) string {
	if f.Class != "" {
		return "ANSI B4.1"
	}
	return "ISO 286"
}

// classes are what the classes of ANSI B4.1 are for. Source: the descriptions of the
// standard, from memory, in our own words.
var classes = map[string]string{
	"RC1": "close sliding: parts that must stand exactly and go together without play to be felt",
	"RC2": "sliding: stands exactly, moves and turns easily; not to run freely, and in larger sizes a little heat can seize it",
	"RC3": "precision running: about the closest that runs freely; slow speeds and light loads, not where one part gets warmer",
	"RC4": "close running: accurate machines at moderate speeds and bearing pressures, with little play",
	"RC5": "medium running: higher speeds, heavier bearing pressures, or both",
	"RC6": "medium running, wider limits: higher speeds, heavier bearing pressures, or both",
	"RC7": "free running: where accuracy is not needed, or the temperatures differ much, or both",
	"RC8": "loose running: cold-drawn and other commercial limits on the shaft",
	"RC9": "loose running, the widest: commercial limits on both parts",

	"LC": "locational clearance: stands still, and goes together and comes apart freely; the higher the number, the wider",
	"LT": "locational transition: its place matters, and a little play or a little interference may be; the higher the number, the tighter",
	"LN": "locational interference: its place matters most, and it must be rigid; not for a load that friction carries",

	"FN1": "light drive: light pressing, more or less for good; thin sections, long fits, and cast iron around it",
	"FN2": "medium drive: ordinary steel parts, or shrunk on light sections; about the tightest for high-grade cast iron around it",
	"FN3": "heavy drive: heavier steel parts, or shrunk on medium sections",
	"FN4": "force: parts that bear high stress; shrunk where pressing is not practical",
	"FN5": "force, the tightest: parts that bear the highest stress; shrunk where pressing is not practical",
}

// pairs are what pairs of ISO 286 are for, by the letter of the part that is not H or h,
// in small letters. Source: the preferred fits of ANSI B4.2 (ISO 286 in metric), and
// fit tables of textbooks; from memory, in our own words.
var pairs = map[string]string{
	"a": "very loose: hot parts, and rough work", "b": "very loose: hot parts, and rough work",
	"c": "loose running: wide limits, dirt, heat", "cd": "loose running",
	"d": "free running: large changes of temperature, high speeds, heavy journal pressures; not where it must run true",
	"e": "easy running: fast shafts, or several supports in line", "ef": "easy running",
	"f": "close running: accurate machines at moderate speeds and bearing pressures", "fg": "close running",
	"g":  "sliding: not to run freely; moves and turns by hand, and stands exactly",
	"h":  "locational clearance: stands still and snug, goes together and comes apart by hand",
	"j":  "locational transition: a little play or a little interference; taps together",
	"js": "locational transition: a little play or a little interference; taps together",
	"k":  "locational transition: about no play; light hammer",
	"m":  "locational transition, tighter: hammer or light press",
	"n":  "locational transition to tight: its place matters more than that it comes apart",
	"p":  "locational interference: rigid and in line, without great pressure on the bore",
	"r":  "light to medium drive: pressed, for cast iron around it and thin sections",
	"s":  "medium drive: ordinary steel parts, or shrunk on light sections; about the tightest for cast iron",
	"t":  "heavy drive: steel parts, pressed or shrunk",
	"u":  "force: parts that bear high stress; shrunk where pressing is not practical",
}

// meaning is what a fit is for, in words; "" for a single class of ISO 286.
func meaning(f standard.Fit) string {
	if f.Class != "" {
		if m := classes[f.Class]; m != "" {
			return m
		}
		return classes[strings.TrimRight(f.Class, "0123456789")]
	}
	c, ok := f.Clearance()
	if !ok {
		return ""
	}
	letters := func(class string) string { return strings.ToLower(strings.TrimRight(class, "0123456789")) }
	hole, shaft := letters(f.Hole), letters(f.Shaft)
	by := shaft
	switch {
	case hole != "h" && shaft != "h":
		by = "" // neither part is the basis of a system: the clearance tells
	case hole != "h":
		by = hole
	}
	m, known := pairs[by], ""
	switch c.Kind() {
	case iso286.ClearanceFit:
		known = "abcdefgh"
	case iso286.TransitionFit:
		known = "hjkmn"
	default:
		known = "nprstu"
	}
	if m != "" && strings.Contains(known, by[:1]) { // the letter's usual use is that of this pair
		return m
	}
	return [...]string{
		iso286.ClearanceFit:    "clearance: goes together by hand at every size within limits",
		iso286.TransitionFit:   "transition: a little play or a little interference, by which parts meet",
		iso286.InterferenceFit: "interference: pressed or shrunk at every size within limits; see what the parts bear",
	}[c.Kind()]
}
