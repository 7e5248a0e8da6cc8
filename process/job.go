// Package process holds a repair job as its author wrote it and what was
// measured since: the process description (TOML), the machines, materials and
// cutters it names, and every mistake in them at its line.
//
// Load is the door. It reads bytes, never files: the caller hands it a way to
// open the files that a job names (a machine of the user's own).
package process

import (
	"slices"

	"borewright/process/qty"
)

// Job is a process description that has been read, defaulted and checked.
// All lengths are nanometres, whatever the file was written in.
type Job struct {
	File     string   // name the job was loaded by, for messages
	Units    qty.Unit // what the file is written in and the sheets print
	Number   string
	Revision string
	Title    string
	Customer string // optional
	Notes    []string

	Machine  *Machine
	Material *Material // of the casting

	Stations []Station // inward from the face that the spindle enters
	Bores    []Bore
	Bar      Bar
	Cutter   Cutter
	Sleeve   *Sleeve // nil when no bore is sleeved
	Sweeps   []Sweep
	LineUp   LineUp
	Shop     []ShopBar // bars the shop owns; nil: no list is named
	Limits   Limits

	positions map[string]Pos // key path -> where it stands in the file
}

// Pos is a place in a file; lines and columns count from 1.
type Pos struct{ Line, Col int }

// Station is one piece of the line of bores. From and To are depths from the
// face that the spindle enters, inward positive.
type Station struct {
	Name     string
	From, To qty.Length
	Diameter qty.Diameter // as it is now; the least, for a worn bore
	Swept    bool         // a dial can be run around it
	Blind    bool         // its far end is closed
	Relief   qty.Length   // run-out groove at the closed end: depth beyond To that the cutter may use
	Wall     qty.Length   // least metal around the bore; 0: not stated
	WallMost qty.Length   // most metal around the bore; 0: same as Wall
}

// Length is how deep the station is.
func (s Station) Length() qty.Length { return s.To - s.From }

// Repair is what is done to a worn bore.
type Repair int

// The repairs.
const (
	Rebore       Repair = iota // bore to a new size in the parent metal
	SleeveRepair               // bore for a sleeve, fit it, bring the sleeve to size
)

func (r Repair) String() string {
	if r == SleeveRepair {
		return "sleeve"
	}
	return "rebore"
}

// Bore is one bore to be restored.
type Bore struct {
	Station   int // index into Job.Stations
	Repair    Repair
	Finish    Finish
	Ra        qty.Length // roughness asked for, arithmetic mean (ISO 21920-2)
	Roundness qty.Length // radial peak to valley asked for (ISO 1101); 0: half the size tolerance is taken by the loader, never 0 after loading
	Offset    qty.Length // how far the old bore's axis may stand from the true one, when no wear readings say so
	Wear      []Reading
	Witness   bool            // begin with a witness cut
	Part      [2]qty.Diameter // smallest and largest size of the part that goes in; zero: not stated
	PartOf    *Material       // what that part is made of; nil: not stated
}

// Finish is the size the bore must come to, however it was stated.
type Finish struct {
	Nominal   qty.Diameter
	Low, High qty.Diameter  // limits of size, never rounded outward
	Fit       string        // ISO 286 class as written, "" when stated by limits
	Mating    qty.Diameter  // size of the part that runs in it; 0: not stated
	Clearance [2]qty.Length // least and most diametral clearance asked for, with Mating
}

// Aim is the middle of the limits.
func (f Finish) Aim() qty.Diameter { return f.Low + (f.High-f.Low)/2 }

// Tolerance is the distance between the limits, on diameter.
func (f Finish) Tolerance() qty.Length { return f.High.Minus(f.Low) }

// Reading is one set of readings of the worn bore at one depth. Either Radius
// (from the true axis) or Across (two-point diameters, each at its clock
// position and the one opposite) is filled, as long as At.
type Reading struct {
	Depth  qty.Length
	At     []float64 // clock positions in degrees from 12 o'clock, clockwise seen from the spindle
	Radius []qty.Length
	Across []qty.Diameter
}

// FeedBy says what moves along the bore.
type FeedBy int

// What can feed.
const (
	TableFeed FeedBy = iota // the table or column: stickout stays
	QuillFeed               // the quill: stickout grows as it feeds
)

func (f FeedBy) String() string {
	if f == QuillFeed {
		return "quill"
	}
	return "table"
}

// Bar is what stands out of the spindle nose.
type Bar struct {
	Name     string // from the built-in or the shop's list, or ""
	Steps    []Step // from the spindle nose outward, adapter and extended quill included
	FeedBy   FeedBy
	CutterAt qty.Length // from the nose to the cutter's tip, along the bar, before the quill feeds
	Standoff qty.Length // quill feed: spindle nose to the face, which does not change as it feeds
	Outboard *Support   // nil: the bar ends in the air
}

// Stickout is the length of the bar from the nose to its free end.
func (b Bar) Stickout() qty.Length {
	var l qty.Length
	for _, s := range b.Steps {
		l += s.Length
	}
	return l
}

// TipHome is the depth of the tip with the quill home, by quill feed.
func (b Bar) TipHome() qty.Length { return b.CutterAt - b.Standoff }

// Step is one cylinder of the bar.
type Step struct {
	Diameter qty.Diameter
	Hole     qty.Diameter // coolant or core hole; 0: solid
	Length   qty.Length
	Material BarMaterial
}

// BarMaterial is what a bar is made of.
type BarMaterial struct {
	ID      string  // "steel", "tungsten-alloy", "carbide"
	Name    string  // as printed
	E       float64 // modulus of elasticity, MPa
	Nu      float64 // Poisson's ratio
	Rho     float64 // density, kg/m³
	Allowed float64 // bending stress allowed in service, MPa
	Reach   float64 // overhang over diameter the trade accepts, as a caution
	Source  string
}

// Support is an outboard bearing or bush that the bar runs in.
type Support struct {
	At        qty.Length // from the spindle nose to the middle of the bearing
	Clearance qty.Length // running clearance, on diameter
	Stiffness float64    // radial, N/µm
}

// Cutter is the single-point tool in the bar. Angles are ISO 3002-1, degrees.
type Cutter struct {
	Material                *CutterMaterial
	NoseRadius              qty.Length
	Lead                    float64          // tool cutting edge angle κr, between the edge and the direction of feed; 90: square shoulder
	Trail                   float64          // tool minor cutting edge angle κr′, behind the nose
	Rake                    float64          // orthogonal rake γo
	EdgeRadius              qty.Length       // rounding of the edge itself
	Least                   qty.Diameter     // smallest diameter the cutter can be set to in this bar
	Most                    qty.Diameter     // largest
	Ahead, Behind           qty.Length       // how far it stands out along the bar in front of and behind the tip
	SpeedRough, SpeedFinish qty.CuttingSpeed // overrides; 0: from the material's table
}

// Hold is how a sleeve is held in its housing.
type Hold int

// The ways.
const (
	Press Hold = iota
	Bond
)

func (h Hold) String() string {
	if h == Bond {
		return "bond"
	}
	return "press"
}

// Sleeving says where the inside of a sleeve is brought to size.
type Sleeving int

// The ways.
const (
	Decide       Sleeving = iota // work both out and take the one that lands
	BoreInPlace                  // at the mill, when the sleeve is home
	FinishBefore                 // on the lathe, before it goes in
)

func (s Sleeving) String() string {
	return map[Sleeving]string{Decide: "decide", BoreInPlace: "in place", FinishBefore: "before"}[s]
}

// Sleeve is the liner that brings an oversize bore back to size.
type Sleeve struct {
	Material  *Material
	Outside   qty.Diameter // nominal interface diameter
	Chosen    bool         // Outside was not written: the loader took the smallest standard size that does
	Hold      Hold
	Fit       string     // ISO 286 pair, "H7/r6"; for a bond the gap stands in Gap
	Gap       qty.Length // bonded: diametral gap aimed at
	Allowance qty.Length // left inside for boring in place, on diameter
	Length    qty.Length // 0: as deep as the station

	Finish   Sleeving
	Standard []qty.Diameter // outsides that the shop has tube for; nil: the usual steps
	Wall     qty.Length     // least wall when finished; 0: what a pressed or bonded sleeve needs at all
	Match    qty.Length     // turned to the housing as measured, ± on diameter; 0: to limits alone
	Lathe    qty.Length     // tolerance on diameter that the lathe holds inside
	Runout   qty.Length     // of the inside against the outside as turned, full reading of the dial
	Rz       [2]qty.Length  // greatest height of the seat's roughness, housing and sleeve (ISO 21920-2); zero: five times Ra
	Friction [2]float64     // least and most while it is pressed in; zero: by the pair of metals
	Service  [2]float64     // °C at work, least and most
	Location qty.Length     // how far the finished axis may stand off, radial; 0: not stated

	Torque        qty.Torque // that the seat must hold; 0: not stated
	Thrust        qty.Force  // along the bore, together with Torque
	PressCapacity qty.Force  // that the shop's press has; 0: not stated
	KeepCool      string     // why the housing must not be heated; "": it may be
	Grip          qty.Force  // of one chuck jaw on the lathe
	Compound      string     // bonding compound, by property: a name of fit.Compounds
}

// LeastWall is the least wall that the finished sleeve may have: the author's
// own, or 1 mm and a hundredth of the outside, below which it can hardly be
// pressed or bonded and bored (common practice, no source).
func (s *Sleeve) LeastWall() qty.Length {
	if s.Wall > 0 {
		return s.Wall
	}
	return max(qty.Millimetre, qty.Length(s.Outside)/100)
}

// FeedLetter is the axis along the bore as programs call it: "Z" or "W"; "Z" where
// the machine has no control.
func (j *Job) FeedLetter() string {
	if j.Machine == nil || j.Machine.Control == nil {
		return "Z"
	}
	letter := j.Machine.Control.FeedAxis
	if j.Bar.FeedBy == QuillFeed {
		letter = j.Machine.Control.QuillAxis
	}
	if letter == "" {
		return "Z"
	}
	return letter
}

// BoreAt is the index in Bores of the bore at a station; -1: nothing is bored there.
func (j *Job) BoreAt(station int) int {
	return slices.IndexFunc(j.Bores, func(b Bore) bool { return b.Station == station })
}

// Sweep is one run of a dial round a bore (or a face), spindle turned by hand.
type Sweep struct {
	Station  int
	Depth    qty.Length
	Face     bool         // dial on the face, at Diameter
	Diameter qty.Diameter // bore: of the bore where the dial runs; face: circle the dial runs on
	At       []float64    // clock positions, degrees as in Reading
	Dial     []qty.Length // dial readings as they are read
	Further  bool         // larger = further from the axis (bore), further in (face); else nearer: the plunger is pressed in

	Stylus     float64    // lever dial: angle between its travel and the direction measured, degrees
	Droop      qty.Length // how far the dial hangs below the spindle axis
	OutOfRound qty.Length // known form of the bore (radial) or face; 0: what the readings show
}

// Limits are what the author allows. All are filled in by the loader.
type Limits struct {
	SpringRough  qty.Length    // on diameter
	SpringFinish qty.Length    // on diameter
	DepthMost    qty.Length    // radial, a pass
	FeedMost     qty.Length    // a revolution
	SpeedMost    qty.RevPerMin // 0: the machine's
	Overhang     float64       // stickout over bar diameter that draws a caution
	ForceError   float64       // fraction by which the force model may be off, 0.3
	SettingError qty.Length    // cutter setting, on diameter, ± (95 %)
	GaugeError   qty.Length    // bore gauge, ± (95 %)
	Temperature  float64       // work against gauge master, ± K
	PassesMost   int
	ChipRoom     qty.Length // least radial room round the bar
	HoldMinutes  float64    // time to stop, measure and reset at a hold point
}
