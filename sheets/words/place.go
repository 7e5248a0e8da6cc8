package words

import (
	"borewright/process/fact"
	"borewright/process/place"
)

// ofPlace are the words of process/place: lining up, clean-up, the way of the
// bar.
var ofPlace = map[fact.Kind]entry{
	place.BarHangs:        text("the bar hangs {1} at the cutter by its own weight: the bore comes out true, but that much below the spindle's line"),
	place.LineHangs:       text("the bar hangs {1} at the cutter by its own weight, as far as its play lets it: the bore comes out true, but that much below the line of its bearings"),
	place.LineStands:      text("the weight of what overhangs its bearings lifts the bar {1} at the cutter: the bore comes out true, but that much above the line of the bearings"),
	place.QuillHangs:      text("bar and quill hang {1} at the cutter by their own weight at the far end of {2}: the bore comes out that much below the spindle's line"),
	place.QuillLeans:      text("bar and quill hang by their own weight, and more the further the quill is out: {1} at the cutter at the near end of {2}, {3} at its far end. The bore comes out that much below the spindle's line and leans down by the difference; table feed does not do that"),
	place.InBush:          text("the end of the bar runs in a bush in {1}, and the cutter follows {2} of what that stands aside: with the bush within {3} of the line of bores, and its play, that draws the bore aside by ±{4} at the most. Sweep {1} before the bush goes in"),
	place.InBoredBush:     text("the end of the bar runs in a bush in {1}, bored before, and the cutter follows {2} of what that stands aside: by what is known of {1} within ±{3}, so the bore comes within ±{4} of where the spindle points. Sweep {1} before the bush goes in"),
	place.DoubtfulDial:    text("sweep {1}, in {2} at {3}: the dial's {4} does not go with the other readings, which suggest {5}. It is used as it stands: sweep again before anything is moved"),
	place.DoubtfulOnFace:  text("sweep {1}, on the face around {2} at {3}: the dial's {4} does not go with the other readings, which suggest {5}. It is used as it stands: sweep again before anything is moved"),
	place.SweepsDisagree:  text("off the line laid through all stand: {1:;}. Sweep number {2} again first: it was read wrongly, or that bore stands out of line{?. {3} bore sweeps alone cannot tell for sure which of them is out}"),
	place.SweepOffLine:    text("sweep {1}, in {2} at depth {3}, by {4}"),
	place.WitnessMustShow: text("the witness cut must show it: measure wall or pitch from its band to the datum at 12, 3, 6 and 9 o'clock, and after the next cut at both ends of {1}. Near and far end agree within {2} (±{3:bare} mrad over {4}); if they do not, the line leans: sweep a second bore or the face, and line up again"),
	place.ParallelAssumed: text("no sweep shows whether the line runs parallel to the spindle; that is assumed, and {1} is known to ±{2} only. The witness cut must confirm it before the next cut"),
	place.TurnedBy:        text("{1} {2:bare} mrad"),
	place.ShimmedBy:       text("under the {1} end, {2:bare} mrad"),
	place.FarToMove:       text("by the sweeps the line stands {1} off the spindle, and work set up by eye comes within {2}: are the clock positions, the units and the sign of the dial as they were read? Look before anything is moved"),
	place.FarToTilt:       text("by the sweeps the line leans {1}, and work set up by eye leans no more than {2}: are the clock positions, the units and the sign of the dial as they were read? Look before anything is moved"),
	place.NoLineUp:        text("the sweeps do not line the work up: {1}"),

	place.AcrossWithOffset: text("two-point readings show size and ovality, not where the axis is: the size about the true axis allows for an offset of up to {1}, as stated"),
	place.AcrossOnly:       text("two-point readings show size and ovality, not where the axis is: both sizes are the same only as long as the old bore stands true. Read radii from the true axis, or state the offset"),
	place.OwnAxisUnknown:   text("the size about its own axis is not known: the readings at depth {1} leave half the turn or more unread, and tell nothing of that side. Read all round there, less than 180° from one reading to the next"),
	place.DepthRead:        text("{1}"),
	place.ByRadiiAlone:     text("readings across show size and not where the axis is. By the radii alone, {1}"),
	place.WornOffLine:      text("the old bore wore off the line: its middle stands {1} from the true axis toward {2}. Cut about that middle it cleans up {3} smaller on diameter, and the bore is then out of line by the same {1}"),
	place.WornAndLeaning:   text("the old bore wore off the line and leans {1}: {2}. Cut about that axis it cleans up {3} smaller on diameter, out of line by as much"),
	place.OwnEndAt:         text("{1} toward {2} at depth {3}"),
	place.OffNoGain:        text("the old bore is off the line: its middle stands {1} from the true axis toward {2}. Its own axis gains nothing, because the readings across ask for as much about any axis"),
	place.StandsTrue:       text("the old bore stands true: its own axis gains nothing"),
	place.NoGain:           text("the old bore does not stand true (see its centres), but an axis of its own would gain nothing"),
	place.DoubtfulReading:  text("the reading of {1} at {2}, {3} (radius {4}) does not go with the others, which suggest {5}. It is used as it stands: read it again before anything is set"),
	place.ShadowLikely:     text("the old wall may show in {1} after the last pass, {3}, with a chance of {2}: it may stand further out where nothing was read. {4} cleans up in 19 bores of 20{?; the next standard sleeve outside for that is {5}}{?. Before metal is cut, read {6:and}}"),
	place.ReadPlaces:       text("at {1} even clock positions"),
	place.ReadNearEnd:      text("close to the near end"),
	place.ReadFarEnd:       text("close to the far end"),
	place.Unread:           text("{1:sentence}"),
	place.SizeNotKnown:     text("how large the bore is there is not known"),
	place.MostBetween:      text("to {1} there in 19 bores of 20, by usual wear"),
	place.MostCarried:      text("to {1} there in 19 bores of 20, by usual wear, carried {2} to the near end and {3} to the far end"),
	place.LobesHidden:      text("The readings cannot show {1} lobes: any over {2} high, on radius, reach further"),
	place.ReadBesides:      text("Less is left open if it is read {1:and}"),
	place.GougeUnseen:      text("No reading shows a gouge between them: look for it after each cut"),
	place.GougeInBand:      text("No reading shows a gouge between them: look for it after each cut. The witness cut shows it at the near end only, in its band"),
	place.NoCleanUp:        text("the readings give no clean-up size: {1}"),

	place.BarDoesNotPass:   text("the bar does not pass{?: {1:;}}. The largest plain bar that passes is {2}, and the shortest stickout to the tip {3}."),
	place.TooLongAhead:     text("the bar does not pass{?: {1:;}}. What stands ahead of the tip has to be {2} shorter; a bar of another diameter does not help."),
	place.NoCutterPasses:   text("the bar does not pass{?: {1:;}}. No other bar would: it is the cutter that does not get there."),
	place.NoBarPasses:      text("the bar does not pass{?: {1:;}}. No bar passes this line with room for chips."),
	place.SpindleFollows:   text("the bar does not pass{?: {1:;}}. The spindle itself could follow: no bar is too short."),
	place.TravelTooShort:   text("the slide that feeds ({1}) would have to travel {2}, and has {3}"),
	place.QuillCannotClear: text("quill feed: with the quill home the tip stands at depth {1}, and a program must bring it to {2} to be set; state a standoff of {3} or more, or feed by the table"),
	place.BringFirst:       text("first bring {1:and} to size: as found, it does not let the cutter pass"),
	place.Quoted:           text(`"{1}"`),
	place.TightPlace:       text("it is tight: {1} has {2} in {3}, where {4} is comfortable. Run it through by hand, and clear chips often"),
	place.NoReach:          text("whether the bar gets there cannot be worked out: {1}"),
	place.BarUnusable:      text(`bar "{1}": {2}`),
	place.SetsOnly:         text("its cutter sets from {1..2} only"),

	place.CutterTooLarge: text(`the cutter, set to {1}, does not pass "{2}" on the axis`),
	place.CutterHasNoWay: text("{1}; it does not pass with the bar shifted either, and nowhere in front of the bore is there room to put it in by hand"),
	place.CutterByHand: func(f fact.Fact) string {
		const (
			shifted = "enter with the spindle stopped and the bar shifted away from the tip by {2:then}"
			inside  = "be put in inside, where the line is open from {3..4} deep"
		)
		can := shifted + ", or " + inside
		switch {
		case f.Nth(2) == nil:
			can = inside
		case f.Nth(3) == nil:
			can = shifted
		}
		if f.Nth(2) == nil && f.Nth(3) == nil {
			return "{1}, and off the axis it does not come in either: {5}"
		}
		return "{1}; it could " + can + ", which is work for the sheet and not for a program{?, because {5}}: plan it on a mill without control"
	},
	place.EnterByProgram: text("the bar goes in off the axis ({1}): spindle stopped, tip at {4}, it moves {2} the other way at the clear plane, goes in so, comes back to the axis with the tip at depth {3} and only there starts to turn. It comes out the same way"),
	place.RoomOffAxis:    text("off the axis there is room on radius {1:;}, for a cutter that stands out no more than {3} to either side of its tip. Before the first run turn the tip by hand to {2}, spindle stopped and held, run the bar in and out slowly, and look at both sides"),
	place.RoomBothSides:  text("in {1}: {2} at the tip, {3} behind the bar"),
	place.RoomAtTip:      text("in {1}: {2} at the tip"),
	place.RoomBehind:     text("in {1}: {2} behind the bar"),
	place.EnterOffAxis:   text("the cutter goes in off the axis ({1}). Stop the spindle with the tip up, lock it, and lower the spindle by {2:then}. Then bring it back to the axis, and take the same way out"),
	place.EnterBare:      text("the bar goes in" + withCutterOut),
	place.ThreadBare:     text("thread the bar through" + withCutterOut),
	place.ShiftedBy:      text("{1..2} while the tip goes from {3..4}"),
}

const withCutterOut = " with the cutter out ({1}). Bring it to {2}, lock the spindle, put the cutter in and set it there; take it out there again before the bar is moved back. The line is open from {3..4} deep: see first that a hand and the wrench get there"
