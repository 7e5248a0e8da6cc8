// Package programs is the programs of a plan as files, each by its name and check sum, and
// which of them cut what was measured.
package programs

import (
	"bytes"
	"fmt"

	"borewright/post"
	"borewright/post/sum"
	"borewright/process/plan"
	"borewright/sheets/document"
)

// Program is the file with the program of a visit, in which others may stand as well, and
// how the program is called with its own check sum.
type Program struct {
	Name        string // of the file
	Data        []byte // the file, whole
	Called      document.Program
	Bore, Visit int // indices
}

// Of writes the programs of a plan, one for each setting of a visit: none where it is not feasible or worked
// by hand.
func Of(p *plan.Plan) (all []Program, err error) {
	if p.Job.Machine.Control == nil || !p.Feasible {
		return nil, nil
	}
	for _, at := range p.Programs() {
		b, v := at[0], at[1]
		var own bytes.Buffer
		if err := post.Write(&own, p, b, v); err != nil {
			return nil, err
		}
		name := post.FileName(p, b, v)
		w := Program{Name: name, Data: own.Bytes(), Called: document.Program{Name: name, Sum: sum.Of(own.Bytes())}, Bore: b, Visit: v}
		if p.Job.Machine.Control.OneFile {
			w.Called.Name += fmt.Sprintf(" O%04d", post.ProgramNumber(p, b, v))
		}
		all = append(all, w)
	}
	if len(all) > 0 && p.Job.Machine.Control.OneFile {
		var whole bytes.Buffer
		if err := post.WriteFile(&whole, p, 0, 0); err != nil {
			return nil, err
		}
		for i := range all {
			all[i].Data = whole.Bytes()
		}
	}
	return all, nil
}
