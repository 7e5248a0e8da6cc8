// Package page is a sheet of paper: a document as blocks in sections, the same
// for every face, and the faces that print it: text of 80 columns (WriteText,
// WriteASCII), HTML (WriteHTML) and PDF (WritePDF). It knows how things look and
// nothing of jobs and plans.
//
// A Printer prints blocks one by one, for what a terminal shows. A new type of
// block needs a case in all three faces and its eachText.
package page

import (
	"fmt"
	"slices"

	"borewright/sheets/draw"
)

// Width is how wide a drawing is on paper, mm: what A4 and Letter both hold.
const Width = 182

// Sheet is a document as blocks in sections, the same for every face.
// All text in it is printable: control characters and terminal escapes that
// stood in a job file are gone.
type Sheet struct {
	Kind     string // what the paper is: "Operation sheet"
	Job      string // number and revision; a face repeats it at every section and page
	Title    string
	Stamp    string // "", "NOT FEASIBLE" or "NOT PROVEN"; a face repeats it at every section and page
	Sections []Section
}

// Section begins a new subject; a face with pages may begin a page.
type Section struct {
	Title   string
	Blocks  []Block
	OwnPage bool // a face with pages begins one
	Folded  bool // a face that can unfold shows its title alone at first
	Card    bool // one page by itself, in type that is read at arm's length
}

// Block is one of Heading, Paragraph, KeyValues, Table, Checklist, Blanks,
// Cautions and Figures.
type Block interface{ eachText(func(*string)) }

// Heading is a title within a section.
type Heading struct{ Text string }

// Paragraph is running text.
type Paragraph struct {
	Text   string
	Strong bool // what must not be overlooked
}

// KeyValues are lines of a name and what stands for it.
type KeyValues struct{ Items []KeyValue }

// KeyValue is one such line.
type KeyValue struct{ Key, Value string }

// Align is where the cells of a column stand.
type Align int

// The ways to align.
const (
	Left    Align = iota
	Decimal       // numbers under each other by their decimal points
)

// Column is one column of a table.
type Column struct {
	Head  []string // lines of the head, most general first
	Align Align
	Blank bool // empty cells are to be filled in by hand
	Key   bool // what is read from a distance, at the machine
}

// Row is one row: cells, as many as there are columns, or one text across all.
type Row struct {
	Cells  []string
	Across string
	Stop   bool     // across all is a stop in the work, to be ticked off
	Boxes  []string // of one text across all: names of places to write in behind it
	Other  []string // cells again in the other system, small; empty, or "" where it does not help
}

// kept are the rows that stand on one page, in their order. In a form a text across all is the
// head of what is filled in below it; rows of other tables stand by themselves.
func (t *Table) kept() (all [][]Row) {
	form := slices.ContainsFunc(t.Columns, func(c Column) bool { return c.Blank })
	under := false // a text across all
	for i, r := range t.Rows {
		if !form || !under || r.Across != "" && t.Rows[i-1].Across == "" {
			all = append(all, nil)
		}
		under = under || r.Across != ""
		all[len(all)-1] = append(all[len(all)-1], r)
	}
	return all
}

// Note is a remark that a cell points to by its mark.
type Note struct{ Mark, Text string }

// Table is rows under heads. Cells of a left-aligned column may be wrapped.
type Table struct {
	Caption string
	Small   bool // for the programmer and the reviewer; a face may print it smaller
	Columns []Column
	Rows    []Row
	Notes   []Note
}

// Checklist is a list to be ticked off.
type Checklist struct{ Items []string }

// Blanks is a row of places to be filled in by hand, side by side.
type Blanks struct{ Items []Blank }

// Blank is one of them, with the unit that is to be written in.
type Blank struct{ Label, Unit string }

// Cautions are what can hurt the person or the work.
type Cautions struct{ Items []string }

// Figures are drawings; a face puts as many side by side as it has room for.
type Figures struct{ Items []Figure }

// Figure is one drawing. Words say what must not be lost where it cannot be
// shown; with none, such a face leaves it out.
type Figure struct {
	Scene   *draw.Scene
	Caption string
	Words   []string
	Instead []string // the same, of what the drawing itself shows: no face that draws prints it
}

// worded is whether there is anything to say where nothing can be drawn.
func (b *Figures) worded() bool {
	for _, f := range b.Items {
		if len(f.Words)+len(f.Instead) > 0 {
			return true
		}
	}
	return false
}

// The methods below hand out every text of a block, so that cleaning cannot
// forget one.

func (b *Heading) eachText(f func(*string))   { f(&b.Text) }
func (b *Paragraph) eachText(f func(*string)) { f(&b.Text) }
func (b *Checklist) eachText(f func(*string)) { each(b.Items, f) }
func (b *Cautions) eachText(f func(*string))  { each(b.Items, f) }

func (b *KeyValues) eachText(f func(*string)) {
	for i := range b.Items {
		f(&b.Items[i].Key)
		f(&b.Items[i].Value)
	}
}

func (b *Blanks) eachText(f func(*string)) {
	for i := range b.Items {
		f(&b.Items[i].Label)
		f(&b.Items[i].Unit)
	}
}

func (b *Table) eachText(f func(*string)) {
	f(&b.Caption)
	for i := range b.Columns {
		each(b.Columns[i].Head, f)
	}
	for i := range b.Rows {
		each(b.Rows[i].Cells, f)
		each(b.Rows[i].Other, f)
		f(&b.Rows[i].Across)
		each(b.Rows[i].Boxes, f)
	}
	for i := range b.Notes {
		f(&b.Notes[i].Mark)
		f(&b.Notes[i].Text)
	}
}

func (b *Figures) eachText(f func(*string)) {
	for i := range b.Items {
		f(&b.Items[i].Caption)
		f(&b.Items[i].Scene.Title)
		f(&b.Items[i].Scene.Desc)
		each(b.Items[i].Words, f)
		each(b.Items[i].Instead, f)
	}
}

func each(s []string, f func(*string)) {
	for i := range s {
		f(&s[i])
	}
}

// EachText hands out every text of the sheet.
func (s *Sheet) EachText(f func(*string)) {
	for _, t := range []*string{&s.Kind, &s.Job, &s.Title, &s.Stamp} {
		f(t)
	}
	for i := range s.Sections {
		f(&s.Sections[i].Title)
		for _, b := range s.Sections[i].Blocks {
			b.eachText(f)
		}
	}
}

// The stamps of a paper that nothing is to be cut from.
const (
	NotFeasible = "NOT FEASIBLE" // the plan misses the drawing
	NotProven   = "NOT PROVEN"   // a program that was replayed does not keep the plan
)

// Number puts a number before the title of every section but the cards.
func (s *Sheet) Number() {
	n := 0
	for i := range s.Sections {
		if !s.Sections[i].Card {
			n++
			s.Sections[i].Title = fmt.Sprintf("%d. %s", n, s.Sections[i].Title)
		}
	}
}

// startsWithCard is whether the first page is a card, which has no room for a long head.
func (s *Sheet) startsWithCard() bool { return len(s.Sections) > 0 && s.Sections[0].Card }

// Clean makes every text of the sheet printable.
func (s *Sheet) Clean() { s.EachText(func(t *string) { *t = Clean(*t) }) }

// Add begins a section.
func (s *Sheet) Add(title string, blocks ...Block) {
	s.Sections = append(s.Sections, Section{Title: title, Blocks: blocks})
}

// KV is a line of a name and what stands for it.
func KV(key, value string) KeyValue { return KeyValue{key, value} }

// KVs are such lines, each a name and what stands for it.
func KVs(lines [][2]string) *KeyValues {
	b := &KeyValues{}
	for _, l := range lines {
		b.Items = append(b.Items, KV(l[0], l[1]))
	}
	return b
}

// Head is a title within a section.
func Head(text string) *Heading { return &Heading{text} }

// Ticks is a list to be ticked off.
func Ticks(items []string) *Checklist { return &Checklist{items} }

// Mind is what can hurt.
func Mind(items []string) *Cautions { return &Cautions{items} }

// Fill is a place to be filled in by hand.
func Fill(label, unit string) Blank { return Blank{label, unit} }
