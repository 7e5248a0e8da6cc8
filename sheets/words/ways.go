package words

import (
	"borewright/process/fact"
	"borewright/process/setup"
	"borewright/process/ways"
)

// ofWays are the words of process/ways.
var ofWays = map[fact.Kind]entry{
	ways.Is: func(f fact.Fact) string {
		s := "{1}{? ({2:;})}: {3} passes, {4}"
		if f.Nth(5) != nil {
			s += ", " + inHundred(f, 5) + " in 100 land"
			if voice, _ := f.Nth(6).(fact.Fact); voice.Kind != setup.Quiet {
				s += " if the bar stays quiet"
			}
		}
		return s + ", {6}{? (at its worst {7})}"
	},
	ways.Both:      text("{1:and}"),
	ways.Write:     text("{1:key} = {2:bare}"),
	ways.WriteWord: text("{1:key} = \"{2}\""),
	ways.WriteYes:  text("{1:key} = true"),
	ways.Without:   text("without {1:key}"),
	ways.AddBar:    text("to the list of bars: \"{1}\", below"),
	ways.AddCutter: text("to the list of cutters: \"{1}\", below"),
	ways.Instead:   text("instead of \"{1}\": {2}"),

	ways.ToSpeed:        text("a cutting speed of {1} roughing and {2} finishing"),
	ways.ToQuillFeed:    text("fed by the quill"),
	ways.ToPasses:       text("up to {1} passes"),
	ways.ToLead:         text("a lead of {1}"),
	ways.ToHone:         text("an edge honed for finishing, rounded to {1}"),
	ways.ToEdge:         text("an edge of {1}"),
	ways.ToSpring:       text("passes that may spring {1} roughing and {2} finishing"),
	ways.ToRoughSpring:  text("roughing passes that may spring {1}"),
	ways.ToFinishSpring: text("a finish that may spring {1}"),
	ways.ToSleeveMetal:  text("a sleeve of {1}"),
	ways.ToStickout:     text("stickout {1} (now {2})"),
	ways.ToStandoff:     text("the nose {1} from the face"),
	ways.ToTableFeed:    text("fed by the table"),
	ways.ToBarOf:        text("a bar of {1} diameter"),
	ways.ToMake:         text("a bar to make: {1}, {2} from the nose to the tip, of {3}"),
	ways.NoBarPasses:    text("no bar to make does: none thicker than {1} gets there"),
	ways.NoBarDoes:      text("no bar to make does: the stiffest that passes, {1}, {2} from the nose to the tip, of {3}, is refused too{?, {4} over its nearest limit}"),
	ways.ToBarMaterial:  text("the same bar of {1}"),
	ways.ToOutboard:     text("an outboard bearing beyond {1}"),
	ways.ToNoseRadius:   text("a nose radius of {1}"),
	ways.ToRake:         text("a cutter with {1} of rake"),
	ways.ToSing:         text("a finish that is planned though it will sing: listen for it, and expect to dress the bore after it"),
	ways.ToIncrement:    text(`the cutter moved on by its dial from where it stands, to ±{1}`),
	ways.ToPreset:       text(`the cutter set to a gauge each time, to ±{1}`),
	ways.ToFineHead:     text(`the cutter moved on by a fine head of {2} a graduation, to ±{1}`),
	ways.ToGauge:        text("a bore gauge good to ±{1}"),
	ways.ToWiderLimits:  text("limits and roundness twice as wide, if the customer grants it"),
	ways.ToBarAtMost:    text("a bar of {1} at most, {2} from the nose to the tip"),
	ways.ToQuillBar:     text("a bar of {1} at most, {2} from the end of the quill to the tip, and the nose {3} from the face"),
	ways.ToBarEnd:       text("a bar that ends {1} ahead of the tip (now {2})"),
	ways.ToHolder:       text("a cutter that stands {1} ahead of its tip (now {2})"),
	ways.ToShopBar:      text(`the shop's bar "{1}"`),
	ways.ToShopCutter:   text(`the shop's cutter "{1}"`),
	ways.ToInPlace:      text("the sleeve bored in place"),
	ways.ToLathe:        text("the sleeve finished on the lathe"),
	ways.ToCloserLathe:  text("the sleeve turned to the housing within ±{1} and held inside within {2}, finished on the lathe"),
	ways.ToPress:        text("the sleeve pressed in {1}"),
	ways.ToBond:         text("the sleeve bonded with a gap of {1}"),
	ways.ToCompound:     text(`the sleeve bonded with another compound ("{1}")`),
	ways.ToBiggerSleeve: text("a bigger sleeve, outside {1}"),
	ways.ToSleeveOf:     text("a sleeve of {1}, outside {2}"),
	ways.ToOutside:      text("a sleeve of {1} outside"),
	ways.ToLongerCutter: text("a longer cutter"),
}
