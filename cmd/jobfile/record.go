package jobfile

import (
	"io"

	"borewright/process"
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
	Programs   []document.Program
	Rows       []record.AsBuilt
	Entries    []record.Entry
}

// RecordOf puts a job's plan beside what was measured on it.
func RecordOf(job *process.Job, results *process.Results) AsBuilt {
	b := AsBuilt{Now: MakeAfter(job, results)}
	b.First = b.Now
	if len(results.Entries) > 0 {
		b.First = plan.Make(job)
	}
	b.Programs = programs.AsCut(job, results)
	b.Rows, b.Entries = record.Of(b.First, b.Now), record.Entries(b.First, results)
	return b
}

// Sheet is the record for people.
func (b AsBuilt) Sheet() *page.Sheet { return report.Record(b.First, b.Now, b.Programs, b.Entries) }

// WriteJSON is the record in SI.
func (b AsBuilt) WriteJSON(w io.Writer) error {
	data, err := document.WriteRecord(b.First, b.Programs, b.Rows, b.Entries)
	if err == nil {
		_, err = w.Write(data)
	}
	return err
}
