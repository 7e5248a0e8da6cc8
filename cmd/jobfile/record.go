package jobfile

import (
	"io"
	"slices"

	"borewright/process"
	"borewright/process/approval"
	"borewright/process/plan"
	"borewright/process/record"
	"borewright/sheets/document"
	"borewright/sheets/page"
	"borewright/sheets/programs"
	"borewright/sheets/report"
)

// AsBuilt is what the as-built record of a job is made of.
type AsBuilt struct {
	First, Now *plan.Plan // before anything was cut, and after what was measured
	Approvals  []approval.Standing
	Programs   []document.Program
	Rows       []record.AsBuilt
	Entries    []record.Entry
}

// RecordOf puts a job's plan beside who approved it and what was measured on it.
func RecordOf(s Source, approvals *approval.List, results *process.Results) (AsBuilt, error) {
	b := AsBuilt{Now: MakeAfter(s.Job, results)}
	b.First = b.Now
	if len(results.Entries) > 0 {
		b.First = MakeAfter(s.Job, nil)
	}
	if approvals.Torn > 0 {
		now := *b.Now // the plan may be kept for others
		now.Cautions = append(slices.Clip(now.Cautions), torn(approvals.File, approvals.Torn))
		b.Now = &now
	}
	var err error
	b.Approvals, err = s.Approved(approvals, b.First)
	b.Programs = programs.AsCut(s.Job, results)
	b.Rows, b.Entries = record.Of(b.First, b.Now), record.Entries(b.First, results)
	return b, err
}

// ReadRecord is RecordOf by the files that stand beside a job file.
func ReadRecord(path string) (AsBuilt, error) {
	data, err := Read(path)
	if err != nil {
		return AsBuilt{}, err
	}
	s, err := Sourced(path, data, Beside(path))
	if err != nil {
		return AsBuilt{}, err
	}
	results, err := Results(path, s.Job)
	if err != nil {
		return AsBuilt{}, err
	}
	approvals, err := Approvals(path)
	if err != nil {
		return AsBuilt{}, err
	}
	return RecordOf(s, approvals, results)
}

// Sheet is the record for people.
func (b AsBuilt) Sheet() *page.Sheet {
	return report.Record(b.First, b.Now, b.Approvals, b.Programs, b.Entries)
}

// WriteJSON is the record in SI.
func (b AsBuilt) WriteJSON(w io.Writer) error {
	data, err := document.WriteRecord(b.First, b.Now, b.Approvals, b.Programs, b.Rows, b.Entries)
	if err == nil {
		_, err = w.Write(data)
	}
	return err
}
