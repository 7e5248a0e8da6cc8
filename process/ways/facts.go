package ways

import "borewright/process/fact"

// A way, and what to write for it.
const (
	Is        fact.Kind = "ways.is"         // change, list of keys, passes, minutes, chance, how the noisiest pass stands, its margins where it is not quiet
	Both      fact.Kind = "ways.both"       // list of changes made together
	Write     fact.Kind = "ways.write"      // key, figure
	WriteWord fact.Kind = "ways.write word" // key, word
	WriteYes  fact.Kind = "ways.write yes"  // key
	Without   fact.Kind = "ways.without"    // key
	AddBar    fact.Kind = "ways.add bar"    // name of the bar to add to the shop's list
	AddCutter fact.Kind = "ways.add cutter" // name of the cutter to add to the shop's list
	Instead   fact.Kind = "ways.instead"    // name of the bar or cutter that bores name, change
)

// What to change.
const (
	ToSpeed        fact.Kind = "ways.to speed"    // roughing, finishing
	ToStandoff     fact.Kind = "ways.to standoff" // nose from the face
	ToTableFeed    fact.Kind = "ways.to table feed"
	ToQuillFeed    fact.Kind = "ways.to quill feed"
	ToPasses       fact.Kind = "ways.to passes"               // most of them
	ToStickout     fact.Kind = "ways.to stickout"             // stickout, now
	ToBarOf        fact.Kind = "ways.to bar of"               // size of its slender step
	ToBarMaterial  fact.Kind = "ways.to bar material"         // material
	ToMake         fact.Kind = "ways.to make"                 // diameter, nose to tip, material
	NoBarPasses    fact.Kind = "ways.no bar passes"           // none thicker than
	NoBarDoes      fact.Kind = "ways.no bar does"             // the same of the one that comes nearest, times over its limit
	ToOutboard     fact.Kind = "ways.to outboard"             // beyond station
	ToNoseRadius   fact.Kind = "ways.to nose radius"          // radius
	ToLead         fact.Kind = "ways.to lead"                 // angle
	ToRake         fact.Kind = "ways.to rake"                 // angle
	ToHone         fact.Kind = "ways.to hone"                 // rounding of the edge
	ToEdge         fact.Kind = "ways.to edge"                 // cutter material
	ToSpring       fact.Kind = "ways.to spring"               // roughing, finishing, on diameter
	ToRoughSpring  fact.Kind = "ways.to spring of roughing"   // on diameter
	ToFinishSpring fact.Kind = "ways.to spring of the finish" // on diameter
	ToSing         fact.Kind = "ways.to sing"
	ToIncrement    fact.Kind = "ways.to increment" // ± on diameter
	ToPreset       fact.Kind = "ways.to preset"    // ± on diameter
	ToFineHead     fact.Kind = "ways.to fine head" // ± on diameter, graduation
	ToGauge        fact.Kind = "ways.to gauge"     // ± of the gauge
	ToWiderLimits  fact.Kind = "ways.to wider limits"
	ToBarAtMost    fact.Kind = "ways.to bar at most" // diameter, nose to tip
	ToQuillBar     fact.Kind = "ways.to quill bar"   // diameter, quill to tip, nose from the face
	ToBarEnd       fact.Kind = "ways.to bar end"     // bar ahead of the tip, now
	ToHolder       fact.Kind = "ways.to holder"      // cutter ahead of its tip, now
	ToShopBar      fact.Kind = "ways.to shop bar"    // its name
	ToShopCutter   fact.Kind = "ways.to shop cutter" // its name
	ToInPlace      fact.Kind = "ways.to in place"
	ToLathe        fact.Kind = "ways.to lathe"
	ToCloserLathe  fact.Kind = "ways.to closer lathe"  // turned within, held inside within
	ToPress        fact.Kind = "ways.to press"         // fit
	ToBond         fact.Kind = "ways.to bond"          // gap
	ToCompound     fact.Kind = "ways.to compound"      // compound
	ToBiggerSleeve fact.Kind = "ways.to bigger sleeve" // outside
	ToSleeveOf     fact.Kind = "ways.to sleeve of"     // material, outside
	ToSleeveMetal  fact.Kind = "ways.to sleeve metal"  // material
	ToOutside      fact.Kind = "ways.to outside"       // of the sleeve
	ToLongerCutter fact.Kind = "ways.to longer cutter"
)
