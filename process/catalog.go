package process

import "borewright/process/qty"

// Machine is a horizontal boring mill: what its spindle can do and what its
// control takes. Axis letters are ISO 841.
type Machine struct {
	ID, Name    string
	Nose        qty.Diameter // spindle nose (fixed sleeve that the quill slides in)
	Quill       qty.Diameter // boring spindle
	QuillTravel qty.Length
	FeedBy      []FeedBy   // what can feed along Z
	Speeds      Range      // rev/min
	Feeds       Range      // mm per revolution
	Power       qty.Power  // at the spindle, W
	Torque      qty.Torque // most at the spindle, N·m
	Travels     []Travel
	Radial      float64    // radial stiffness at the nose, N/µm
	Tilt        float64    // rotational stiffness at the nose, MN·m/rad
	ForceFactor float64    // on the cutting forces, as the shop's own cuts show it; 0 is 1
	Damping     [2]float64 // damping ratio of the bar in this spindle, least and most
	Dial        qty.Length // graduation of the axis dials
	SetDial     qty.Length // graduation that a cutter is set by, on diameter
	Control     *Control   // nil: none, a manual mill
	Source      string
}

// CanFeed reports whether f is among what the machine feeds by.
func (m *Machine) CanFeed(f FeedBy) bool {
	for _, g := range m.FeedBy {
		if g == f {
			return true
		}
	}
	return false
}

// Range is a ladder of gears or, where Steps is empty, anything from Least to
// Most.
type Range struct {
	Steps       []float64 // rising
	Least, Most float64
}

// Travel is one axis of the machine.
type Travel struct {
	Axis   string     // "X", "Y", "Z", "W", "B"
	Travel qty.Length // 0 for a rotary axis
	What   string     // "table, across", in words
}

// Control says what a control takes, by property.
type Control struct {
	DecimalPoint  bool     // false: fixed format of Whole.Part places
	WholePlaces   int      // fixed format: digits before the implied point
	PartPlaces    int      // digits after the (implied) point that the control takes
	DropZeros     string   // fixed format: "leading" or "trailing" zeros are left out
	Units         qty.Unit // of the program
	AsJob         bool     // the file left them open: they are the job\'s
	UnitsWord     string   // "G20/G21" or "G70/G71"
	BlockNumbers  bool
	BlockStep     int
	FeedPerRev    bool   // G95; else G94 with feed per minute
	Cycles        bool   // G85, G86, G89; else the moves are written out
	ReturnWords   bool   // G98/G99 taken
	Dwell         string // "seconds", "milliseconds" or "revolutions"
	DwellWord     string // "P" or "X" or "F"
	OrientedStop  bool   // M19
	TipAtStop     string // where the tip points after M19, seen from the spindle: "+X", "-X", "+Y", "-Y"
	Comments      bool   // parentheses taken
	Percent       bool   // % before and after
	ProgramNumber int    // O word; 0: none
	FeedAxis      string // "Z" or "W" for the slide that feeds along the bore, table feed
	QuillAxis     string // the same for quill feed
	LineMost      int    // longest block, characters
	WorkOffset    string // "G54"; "": none
	SpaceWords    bool   // a space between words
	PlainText     bool   // comments in capitals, digits, spaces and + - . , / alone

	usualPlaces bool // PartPlaces was left open: 3 in mm, 4 in inches
}

// Material is a work material: how it cuts and how it springs.
type Material struct {
	ID, Name    string
	Group       string               // ISO 513 letter: P, M, K, N
	Kc11        float64              // specific cutting force at h = b = 1 mm, N/mm² (Kienzle)
	Mc          float64              // Kienzle exponent
	ThrustRatio float64              // thrust normal to the edge over cutting force at h = 1 mm
	ThrustFall  float64              // exponent: ratio = ThrustRatio·h^(−ThrustFall)
	Rake0       float64              // rake at which Kc11 was measured, degrees
	E, Nu       float64              // MPa, –
	Rm, Re      float64              // tensile and yield (proof) strength, MPa
	Brittle     bool                 // no yield: judged by Rm
	Alpha       float64              // 1/K
	Rho         float64              // kg/m³
	RaFactor    float64              // measured over geometric roughness, fresh edge
	Speeds      map[string]SpeedBand // by cutter material class: "hss", "carbide", "carbide-coated"
	HeatMost    float64              // °C that the part may be heated to for assembly
	Sources     map[string]string    // figure -> source and how it was checked
}

// SpeedBand is the cutting speed range for roughing and finishing, m/min.
type SpeedBand struct {
	Rough, Finish [2]qty.CuttingSpeed
	Source        string
}

// CutterMaterial is what the edge is made of.
type CutterMaterial struct {
	ID, Name string
	Class    string     // key into Material.Speeds
	Force    float64    // factor on cutting force, carbide = 1
	Edge     qty.Length // usual edge radius
	MinChip  float64    // least chip thickness over edge radius
	Rake     float64    // usual rake, degrees
	Source   string
}
