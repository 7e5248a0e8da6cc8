package sleeve

import "borewright/process/fact"

// What a sleeve has besides its diameters, named. Clock positions are a list of AtClock.
const (
	AtClock     fact.Kind = "sleeve.made.clock"        // clock position
	HolesAt     fact.Kind = "sleeve.made.holes"        // diameter, clock positions, depth
	GrooveRound fact.Kind = "sleeve.made.groove"       // for what, from, to, deep
	GrooveAlong fact.Kind = "sleeve.made.groove_along" // for what, from, to, deep, clock positions, wide
	PinAt       fact.Kind = "sleeve.made.pin"          // pin or screw, diameter, clock positions
	VentAt      fact.Kind = "sleeve.made.vent"         // clock positions
)

// What is wrong with one, or to be minded of it.
const (
	CracksAt      fact.Kind = "sleeve.made.cracks"      // what, place, stress felt, allowed
	YieldsAt      fact.Kind = "sleeve.made.yields"      // what, place, stress in the section left, allowed
	RaisedMost    fact.Kind = "sleeve.made.raised"      // what, place, times, plain stress, peak
	SeatNotFaced  fact.Kind = "sleeve.made.not_faced"   // flange or shoulder
	GrooveDeep    fact.Kind = "sleeve.made.groove_deep" // groove, a third of the wall
	GrooveOpen    fact.Kind = "sleeve.made.groove_open" // groove, least to the end
	HoleNearEnd   fact.Kind = "sleeve.made.hole_end"    // diameter, depth, wall
	HoleMeetsNone fact.Kind = "sleeve.made.hole_groove" // diameter, depth
	PinAtThin     fact.Kind = "sleeve.made.pin_thin"    // pin or screw, its clock position, that of the thin wall
	CutKnocks     fact.Kind = "sleeve.made.knocks"      // no arguments
	PinHolds      fact.Kind = "sleeve.made.pin_holds"   // times the load, times wanted
	FlangeNoWay   fact.Kind = "sleeve.made.flange_way"  // flange, station and its diameter
	MouthBeyond   fact.Kind = "sleeve.mouth.beyond"     // cut, setting, largest setting
	MouthNoWay    fact.Kind = "sleeve.mouth.way"        // cut, setting, station and its diameter
	MouthMaySing  fact.Kind = "sleeve.mouth.sings"      // cut, length of edge, margins
	FlangeFarEnd  fact.Kind = "sleeve.made.flange_far"  // no arguments
)

// Steps of the order of work.
const (
	FaceSeat     fact.Kind = "sleeve.step.face"        // flange or shoulder
	CutRecess    fact.Kind = "sleeve.step.recess"      // flange or shoulder
	SeatAsFound  fact.Kind = "sleeve.step.as_found"    // flange or shoulder
	CutGrooves   fact.Kind = "sleeve.step.grooves"     // how many
	DrillOnBench fact.Kind = "sleeve.step.drill_bench" // diameter, clock positions, depth
	DrillAtHome  fact.Kind = "sleeve.step.drill_home"  // diameter, clock positions, depth
	SetByLine    fact.Kind = "sleeve.step.line"        // clock position
	StopBears    fact.Kind = "sleeve.step.bears"       // flange or shoulder, feeler
	PinIn        fact.Kind = "sleeve.step.pin"         // pin or screw, diameter, length, clock positions, end
	OilWayFree   fact.Kind = "sleeve.step.oil_way"     // no arguments
)

// On the lathe and among the features.
const (
	LatheFlange  fact.Kind = "sleeve.lathe.flange" // diameter, thickness, end
	TurnGroove   fact.Kind = "sleeve.lathe.groove" // groove, diameter turned to
	CutAlong     fact.Kind = "sleeve.lathe.along"  // groove, diameter over its bottom
	StopOfSleeve fact.Kind = "sleeve.detail.stop"
	GrooveOf     fact.Kind = "sleeve.detail.groove"   // for what
	PinOfJoint   fact.Kind = "sleeve.detail.pin"      // no arguments
	VentStated   fact.Kind = "sleeve.how.vent_stated" // way, clock positions, width, depth
	FlangeHow    fact.Kind = "sleeve.how.flange"      // diameter, thickness, end
	ShoulderHow  fact.Kind = "sleeve.how.shoulder"
	GrooveHow    fact.Kind = "sleeve.how.groove"     // groove, diameter turned to
	SealHow      fact.Kind = "sleeve.how.seal"       // groove, diameter turned to
	HoleBench    fact.Kind = "sleeve.how.hole_bench" // diameter, clock positions, depth
	HoleHome     fact.Kind = "sleeve.how.hole_home"  // diameter, clock positions, depth
	PinHow       fact.Kind = "sleeve.how.pin"        // pin or screw, diameter, length, clock positions, end, torque
)
