package process

// Face is one of the two faces that a mill with a rotary table bores a line from.
type Face int

// The faces.
const (
	NearFace Face = iota // as the work was set up
	FarFace              // after half a turn of the table
)

func (f Face) String() string {
	if f == FarFace {
		return "far"
	}
	return "near"
}

// FromFar is whether the bores of a job are bored after half a turn of the table: all of
// them, or none (the loader sees to it).
func (j *Job) FromFar() bool { return len(j.Bores) > 0 && j.Bores[0].Face == FarFace }

// TableAngle is the angle of the table, degrees, at which the face of depth 0 looks at the
// spindle.
func (j *Job) TableAngle() int {
	angle := j.Machine.Control.TableAngle
	if j.FromFar() {
		angle += 180
	}
	return angle % 360
}
