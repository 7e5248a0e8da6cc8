package process

// Face is one of the two faces that a mill with a rotary table bores a line from.
type Face int

// The faces.
const (
	NearFace Face = iota // as the work was set up
	FarFace              // after half a turn of the table
)

func (f Face) String() string { return [...]string{"near", "far"}[f] }

// FromFar is whether the job is seen from its far face.
func (j *Job) FromFar() bool { return len(j.Bores) > 0 && !j.Here(Bore{Face: NearFace}) }

// Here is whether a bore is bored from the face that the job is seen from: that of its bores.
func (j *Job) Here(b Bore) bool {
	if j.Seen != nil {
		return b.Face == *j.Seen
	}
	return b.Face == j.Bores[0].Face
}

// TableAngle is the angle of the table, degrees, at which the face of depth 0 looks at the
// spindle.
func (j *Job) TableAngle() int {
	angle := j.Machine.Control.TableAngle
	if j.FromFar() {
		angle += 180
	}
	return angle % 360
}
