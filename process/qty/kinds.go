package qty

// Kind is a kind of quantity together with how it is rounded for print. Where
// one quantity is printed in two ways there are two kinds, named after where
// each is used.
type Kind int

// The kinds of quantity. Their units and rounding stand in the table below.
const (
	KindNumber            Kind = iota // a plain number: a factor, an exponent
	KindCount                         // a whole number: passes, teeth
	KindRatio                         // how many times: one decimal
	KindReserve                       // how many times over, to three figures
	KindShortOf                       // how many times over, where it is too few, to two figures
	KindFactor                        // a factor near 1: two decimals
	KindMargin                        // a margin over many sizes, to two figures
	KindShare                         // a share of 1, printed in whole percent
	KindChance                        // a share of 1, in percent to one decimal
	KindLength                        // a length to the usual decimals
	KindFine                          // a length with one decimal more: spring, form
	KindPlain                         // a length without zeros behind: a stickout
	KindGraduation                    // of a dial, in the system that the dial is cut in, whoever reads it
	KindDiameter                      // a diameter, with Ø before it in a sentence
	KindFeed                          // a feed for each revolution
	KindRoughness                     // Ra
	KindForce                         // a force to the whole unit: cutting, a jaw
	KindPressForce                    // a force of tonnes, to three figures: pressing in, pushing out
	KindPressHome                     // the same in a sentence: newtons below a kilonewton, else kilonewtons to one decimal
	KindPower                         // a power to two decimals: of a cut
	KindSpindlePower                  // a power to one decimal: what a spindle has, and what a cut asks of it
	KindTorque                        // a torque to the whole unit: of a cut, of a spindle
	KindSeatTorque                    // a torque to three figures: what a seat holds
	KindStress                        // a stress in metal: MPa, ksi
	KindPressure                      // a pressure: MPa to one decimal, psi
	KindBondStrength                  // of a compound, in shear: MPa to one decimal, psi to three figures
	KindCompliance                    // how far a force of one unit bends something
	KindStiffness                     // the force that bends something by one unit of length
	KindTiltStiffness                 // the moment that tilts something by one radian
	KindIndentation                   // the force that presses a flank into the metal, for each unit of volume that it displaces
	KindDensity                       // mass in a volume
	KindMass                          // mass
	KindTemperature                   // on a thermometer
	KindRead                          // on a thermometer, to the tenth that was read
	KindWarmer                        // a difference of temperature, as it is written in a job
	KindWarming                       // a difference of temperature, to the whole degree
	KindExpansion                     // thermal expansion: length for length and degree
	KindSpindleSpeed                  // revolutions of the spindle
	KindCuttingSpeed                  // of the edge over the work
	KindExactCuttingSpeed             // the same to one decimal, for comparing
	KindMinutes                       // a time to a tenth of a minute: of a pass
	KindWholeMinutes                  // a time up to the next minute: of a plan
	KindTime                          // a time for a person, up to the next minute: "45 min", "3 h 20 min"
	KindSeconds                       // a dwell
	KindFrequency                     // vibration
	KindAngle                         // of a tool, a chamfer
	KindSlope                         // a small angle, in mrad and as so much over a length
	KindLean                          // a small angle to two figures
	KindClock                         // a position round the bore, seen from the spindle: "3 o'clock"
	KindExactClock                    // the same told apart from every other: "3:12 (96°)"
	KindVolume                        // of metal
	KindEdge                          // the rounding of a cutting edge
	KindCutLength                     // how far an edge has cut
	lastKind              Kind = iota - 1
)

// The conversions are exact by definition of the yard and the pound
// (international yard and pound agreement, 1959: 1 in = 25.4 mm, 1 lb =
// 0.45359237 kg; standard gravity 9.80665 m/s²; 1 hp = 550 ft·lb/s).
const (
	mmPerInch     = 25.4
	metresPerFoot = 0.3048
	kgPerPound    = 0.45359237
	newtonsPerLbf = kgPerPound * 9.80665
	nmPerFtLbf    = metresPerFoot * newtonsPerLbf
	wattsPerHP    = 550 * nmPerFtLbf
	mpaPerKsi     = 1000 * newtonsPerLbf / (mmPerInch * mmPerInch)
)

// side is how one system prints a kind: value·times/per + from, in unit.
type side struct {
	unit             string
	times, per, from float64
	round            func(float64) string
}

// row is a kind in both systems. A length is printed by whole nanometres
// (length) and a side gives its unit only.
type row struct {
	name, base     string
	prefix         string
	length         func(Unit, Length) string
	metric, inches side
}

func (r *row) in(u Unit) side {
	if u == Inches {
		return r.inches
	}
	return r.metric
}

func (k Kind) row() *row {
	if k < 0 || k > lastKind {
		k = KindNumber
	}
	return &table[k]
}

// String is the name of the kind, for messages and documents.
func (k Kind) String() string { return k.row().name }

// Base is the unit of record: what Figure.Value is in. "" for a plain number.
func (k Kind) Base() string { return k.row().base }

// as is a side that differs from the unit of record by a factor.
func as(unit string, times, per float64, round func(float64) string) side {
	return side{unit: unit, times: times, per: per, round: round}
}

// same is a kind that both systems print alike, from a value in base.
func same(name, base string, s side) row {
	return row{name: name, base: base, metric: s, inches: s}
}

// length is a kind of length, printed by whole nanometres.
func length(name, metric, inches string, print func(Unit, Length) string) row {
	return row{name: name, base: "mm", length: print, metric: as(metric, 1, 1, nil), inches: as(inches, 1, mmPerInch, nil)}
}

// table is every kind: its name, its unit of record, and for each system the
// unit, the factor and the rounding. It is never written to.
var table = [...]row{
	KindNumber:  same("number", "", as("", 1, 1, upTo(4))),
	KindCount:   same("count", "", as("", 1, 1, places(0))),
	KindRatio:   same("ratio", "", as("times", 1, 1, places(1))),
	KindReserve: same("reserve", "", as("times", 1, 1, threeFigures)),
	KindShortOf: same("short reserve", "", as("times", 1, 1, twoFigures)),
	KindFactor:  same("factor", "", as("", 1, 1, places(2))),
	KindMargin:  same("margin", "", as("", 1, 1, margin)),
	KindShare:   same("share", "", as("%", 100, 1, places(0))),
	KindChance:  same("chance", "", as("%", 100, 1, places(1))),

	KindLength:     length("length", "mm", "in", Unit.Format),
	KindFine:       length("fine length", "mm", "in", Unit.FormatFine),
	KindPlain:      length("plain length", "mm", "in", Unit.formatPlain),
	KindGraduation: length("graduation", "mm", "in", Unit.formatPlain),
	KindDiameter:   withPrefix("Ø", length("diameter", "mm", "in", Unit.Format)),
	KindFeed:       length("feed", "mm/rev", "in/rev", Unit.Format),
	KindRoughness:  length("roughness", "µm", "µin", Unit.FormatRa),

	KindForce:         {name: "force", base: "N", metric: as("N", 1, 1, places(0)), inches: as("lbf", 1, newtonsPerLbf, places(0))},
	KindPressForce:    {name: "press force", base: "N", metric: as("kN", 1, 1000, threeFigures), inches: as("lbf", 1, newtonsPerLbf, threeFigures)},
	KindPressHome:     {name: "force pressed home", base: "N", metric: as("", 1, 1, newtons), inches: as("lbf", 1, newtonsPerLbf, threeFigures)},
	KindPower:         {name: "power", base: "W", metric: as("kW", 1, 1000, places(2)), inches: as("hp", 1, wattsPerHP, places(2))},
	KindSpindlePower:  {name: "spindle power", base: "W", metric: as("kW", 1, 1000, places(1)), inches: as("hp", 1, wattsPerHP, places(1))},
	KindTorque:        {name: "torque", base: "N·m", metric: as("N·m", 1, 1, places(0)), inches: as("ft·lb", 1, nmPerFtLbf, places(0))},
	KindSeatTorque:    {name: "seat torque", base: "N·m", metric: as("N·m", 1, 1, threeFigures), inches: as("ft·lb", 1, nmPerFtLbf, threeFigures)},
	KindStress:        {name: "stress", base: "MPa", metric: as("MPa", 1, 1, places(0)), inches: as("ksi", 1, mpaPerKsi, places(1))},
	KindPressure:      {name: "pressure", base: "MPa", metric: as("MPa", 1, 1, places(1)), inches: as("psi", 1000, mpaPerKsi, places(0))},
	KindBondStrength:  {name: "bond strength", base: "MPa", metric: as("MPa", 1, 1, places(1)), inches: as("psi", 1000, mpaPerKsi, threeFigures)},
	KindCompliance:    {name: "compliance", base: "µm/N", metric: as("µm/N", 1, 1, places(3)), inches: as("µin/lbf", 1000*newtonsPerLbf, mmPerInch, places(1))},
	KindStiffness:     {name: "stiffness", base: "N/µm", metric: as("N/µm", 1, 1, places(1)), inches: as("lbf/in", 1000*mmPerInch, newtonsPerLbf, threeFigures)},
	KindTiltStiffness: {name: "tilt stiffness", base: "MN·m/rad", metric: as("MN·m/rad", 1, 1, threeFigures), inches: as("million in·lbf/rad", 12, nmPerFtLbf, threeFigures)},
	KindIndentation:   {name: "indentation force", base: "N/mm³", metric: as("N/mm³", 1, 1, threeFigures), inches: as("million lbf/in³", mmPerInch*mmPerInch*mmPerInch/1e6, newtonsPerLbf, threeFigures)},
	KindDensity:       {name: "density", base: "kg/m³", metric: as("kg/m³", 1, 1, places(0)), inches: as("lb/in³", mmPerInch*mmPerInch*mmPerInch*1e-9, kgPerPound, places(3))},
	KindMass:          {name: "mass", base: "kg", metric: as("kg", 1, 1, threeFigures), inches: as("lb", 1, kgPerPound, threeFigures)},

	KindTemperature: {name: "temperature", base: "°C", metric: as("°C", 1, 1, places(0)), inches: side{unit: "°F", times: 1.8, per: 1, from: 32, round: places(0)}},
	KindRead:        {name: "temperature read", base: "°C", metric: as("°C", 1, 1, upTo(2)), inches: side{unit: "°F", times: 1.8, per: 1, from: 32, round: upTo(2)}},
	KindWarmer:      {name: "temperature difference", base: "K", metric: as("K", 1, 1, upTo(4)), inches: as("°F", 1.8, 1, upTo(4))},
	KindWarming:     {name: "warming", base: "K", metric: as("K", 1, 1, places(0)), inches: as("°F", 1.8, 1, places(0))},
	KindExpansion:   {name: "expansion", base: "µm/m·K", metric: as("µm/(m·K)", 1, 1, places(1)), inches: as("µin/(in·°F)", 1, 1.8, places(1))},

	KindSpindleSpeed:      same("spindle speed", "rev/min", as("rev/min", 1, 1, upTo(1))),
	KindCuttingSpeed:      {name: "cutting speed", base: "m/min", metric: as("m/min", 1, 1, places(0)), inches: as("ft/min", 1, metresPerFoot, places(0))},
	KindExactCuttingSpeed: {name: "exact cutting speed", base: "m/min", metric: as("m/min", 1, 1, places(1)), inches: as("ft/min", 1, metresPerFoot, places(1))},
	KindMinutes:           same("minutes", "min", as("min", 1, 1, places(1))),
	KindWholeMinutes:      same("whole minutes", "min", as("min", 1, 1, upToMinute)),
	KindTime:              same("time", "min", as("", 1, 1, hoursAndMinutes)),
	KindSeconds:           same("seconds", "s", as("s", 1, 1, upTo(1))),
	KindFrequency:         same("frequency", "Hz", as("Hz", 1, 1, places(0))),

	KindAngle:      same("angle", "°", as("°", 1, 1, upTo(4))),
	KindSlope:      same("slope", "mrad", as("mrad", 1, 1, places(2))),
	KindLean:       same("lean", "mrad", as("mrad", 1, 1, twoFigures)),
	KindClock:      same("clock position", "°", as("", 1, 1, clock)),
	KindExactClock: same("exact clock position", "°", as("", 1, 1, exactClock)),
	KindEdge:       {name: "rounding of an edge", base: "µm", metric: as("µm", 1, 1, upTo(3)), inches: as("in", 1, 1000*mmPerInch, upTo(5))},
	KindCutLength:  {name: "length of cut", base: "m", metric: as("m", 1, 1, places(0)), inches: as("ft", 1, metresPerFoot, places(0))},
	KindVolume:     {name: "volume", base: "mm³", metric: as("cm³", 1, 1000, places(2)), inches: as("in³", 1, mmPerInch*mmPerInch*mmPerInch, places(2))},
}

func withPrefix(p string, r row) row {
	r.prefix = p
	return r
}
