package serve

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"mime"
	"net/http"
	"strings"
	"time"
	"unicode/utf8"

	"borewright/cmd/jobfile"
	"borewright/process"
	"borewright/process/plan"
	"borewright/process/record"
	"borewright/process/source"
	"borewright/sheets/entry"
	"borewright/sheets/programs"
)

// sent is an entry as a device sends it. Its id is made at the device and becomes the id of the
// entry in the results file, so that what is sent twice is entered once.
type sent struct {
	ID      string   `json:"id"`
	Station string   `json:"station"`
	Pass    int      `json:"pass"`
	Sizes   []string `json:"sizes"` // DEPTH@CLOCK=DIAMETER, as "borewright measured" takes them
	Setting string   `json:"setting"`
	Marked  []string `json:"marked"`
	Bare    []string `json:"bare"`
	Remark  string   `json:"remark"`
	By      string   `json:"by"`
	When    string   `json:"when"` // by the device's clock; what waited for the network was measured before
	Sure    bool     `json:"sure"` // enter it although it looks like a slip
}

// Bounds of an entry.
const (
	mostSizes = 40
	mostWord  = 80
	mostText  = 500
)

// idLong is how long an id is: six bytes in hexadecimal, as the commands make them.
const idLong = 12

// sentOf reads an entry. What is wrong with it is no slip of the person but of the page.
func sentOf(data []byte) (e sent, err error) {
	d := json.NewDecoder(bytes.NewReader(data))
	d.DisallowUnknownFields()
	if err := d.Decode(&e); err != nil {
		return e, fmt.Errorf("the entry does not read: %s", source.Clip(err.Error(), mostWord))
	}
	if _, err := d.Token(); !errors.Is(err, io.EOF) {
		return e, errors.New("the entry does not read: there is more behind it")
	}
	if len(e.ID) != idLong || strings.Trim(e.ID, "0123456789abcdef") != "" {
		return e, errors.New("the entry has no id of its own")
	}
	if e.By = strings.TrimSpace(e.By); e.By == "" {
		return e, errors.New("say who measured")
	}
	if len(e.Sizes) == 0 || len(e.Sizes) > mostSizes || len(e.Marked) > mostSizes || len(e.Bare) > mostSizes {
		return e, fmt.Errorf("give 1 to %d sizes", mostSizes)
	}
	texts := append([]string{e.Station, e.Setting, e.By, e.When}, e.Sizes...)
	for _, t := range append(append(texts, e.Marked...), e.Bare...) {
		if utf8.RuneCountInString(t) > mostWord {
			return e, fmt.Errorf("%q is too long", source.Show(t))
		}
	}
	if utf8.RuneCountInString(e.Remark) > mostText {
		return e, fmt.Errorf("a remark has %d characters at the most", mostText)
	}
	for _, t := range append(texts, e.Remark) {
		if what, allowed := source.CheckText(t, mostText); t != "" && what != "" {
			return e, fmt.Errorf("%s; %s", what, allowed)
		}
	}
	return e, nil
}

// entry is the entry that is meant, completed from the plan that was worked to.
func (e sent) entry(job *process.Job, p *plan.Plan, now time.Time) (process.Measured, error) {
	g := entry.Given{Station: e.Station, Pass: e.Pass, Sizes: e.Sizes, Setting: e.Setting, Marked: e.Marked, Bare: e.Bare, Remark: e.Remark, By: e.By, When: e.When}
	m, err := g.Entry(job, p, now)
	if err != nil { // the words of a flag are not those of the page
		return m, errors.New(strings.TrimPrefix(strings.TrimPrefix(err.Error(), "--size "), "--"))
	}
	m.ID = e.ID
	return m, nil
}

// slipped is what looks like a slip, in words.
type slipped struct {
	says   []string
	refuse bool
}

func (s *slipped) Error() string { return strings.Join(s.says, "\n") }

// slipsOf is nil where nothing looks like a slip, or the person is sure and nothing of it
// cannot be.
func slipsOf(job *process.Job, slips []record.Slip, sure bool) error {
	s := &slipped{}
	for _, x := range slips {
		s.says = append(s.says, sentence(job, x.Fact()))
		s.refuse = s.refuse || x.Refuse
	}
	if len(slips) == 0 || sure && !s.refuse {
		return nil
	}
	return s
}

// keep enters what was sent. It comes back without an error when the entry is on the disk, also
// where it has been there since an earlier try.
func (s *Server) keep(name string, e sent) error {
	file, err := s.pathOf(name)
	if err != nil {
		return err
	}
	x, err := s.load(name)
	if err != nil {
		return err
	}
	for _, m := range x.results.Entries {
		if m.ID == e.ID {
			return nil
		}
	}
	if !x.plan.Feasible && x.plan.Findings == nil {
		return errors.New("the job has no feasible plan, so nothing was to be cut")
	}
	m, err := e.entry(x.job, x.plan, s.now())
	if err != nil {
		return err
	}
	if err := slipsOf(x.job, record.Slips(x.plan, m), e.Sure); err != nil {
		return err
	}
	seen := len(x.results.Entries)
	err = jobfile.Add(file, x.job, &m, func(now *process.Results) error {
		by := programs.CutBy(x.job, now.Entries, m)
		m.Program, m.ProgramSum = by.Name, by.Sum
		if len(now.Entries) == seen {
			return nil
		}
		// Another entry came in between: is this one still what it was?
		again := jobfile.MakeAfter(x.job, now)
		var err error
		if m, err = record.Fill(again, m); err != nil {
			return fmt.Errorf("somebody entered results meanwhile: %w", entry.InWords(x.job, err))
		}
		return slipsOf(x.job, record.Slips(again, m), e.Sure)
	})
	if errors.Is(err, jobfile.ErrThere) {
		return nil
	}
	return err
}

// answer is what a device is told of an entry.
type answer struct {
	Kept  bool     `json:"kept"`            // it is on the disk
	Asks  []string `json:"asks,omitempty"`  // what looks like a slip: sent again with "sure" it is entered
	Wrong []string `json:"wrong,omitempty"` // why it cannot be entered at all
}

// enter takes an entry.
func (s *Server) enter(w http.ResponseWriter, r *http.Request) {
	reply := func(code int, a answer) {
		w.Header().Set("Content-Type", "application/json")
		w.WriteHeader(code)
		json.NewEncoder(w).Encode(a)
	}
	if kind, _, _ := mime.ParseMediaType(r.Header.Get("Content-Type")); kind != "application/json" {
		reply(http.StatusUnsupportedMediaType, answer{Wrong: []string{"an entry comes as JSON"}})
		return
	}
	data, err := io.ReadAll(r.Body)
	var large *http.MaxBytesError
	if errors.As(err, &large) {
		reply(http.StatusRequestEntityTooLarge, answer{Wrong: []string{"the entry is too long"}})
		return
	} else if err != nil {
		return // the device went away in the midst of it: it asks again
	}
	e, err := sentOf(data)
	if err != nil {
		reply(http.StatusBadRequest, answer{Wrong: []string{err.Error()}})
		return
	}
	var slip *slipped
	switch err := s.keep(r.PathValue("job"), e); {
	case err == nil:
		s.listAnew()
		reply(http.StatusOK, answer{Kept: true})
	case errors.As(err, &slip) && !slip.refuse:
		reply(http.StatusConflict, answer{Asks: slip.says})
	case errors.Is(err, errNoJob):
		reply(http.StatusNotFound, answer{Wrong: said(err)})
	default:
		reply(http.StatusUnprocessableEntity, answer{Wrong: said(err)})
	}
}
