// Package desk is a job file as a form: its figures by table in the order of the file, what may
// be added to it, what a change of a figure makes of the file, and what the planner says then.
//
// What belongs here: between a file's bytes and what a page shows of them. What does not:
// requests and pages (cmd/serve), the disk (cmd/store), what is right (process/files).
package desk

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"

	"github.com/BurntSushi/toml"

	"borewright/process"
	"borewright/process/field/keys"
	"borewright/process/files"
	"borewright/process/qty"
	"borewright/process/source"
)

// Form is a job file as it is filled in.
type Form struct {
	Unit   string
	Groups []Group
	Slides []Slide
}

// Group is a table of the file, or an element of a list of tables.
type Group struct {
	Path, Title string
	Out         bool // it may be taken out whole
	Fields      []Field
	Add         []Addable
}

// Field is one figure.
type Field struct {
	Path  string // as the loader names it, "bore[0].finish.fit"
	Name  string // in its group, lists counted from 1
	Value string
	Is    string   // how it is filled in: "line", "lines", "word", "link"
	Words []string // that it takes, or that are at hand
	Added bool     // the file has it not yet
	Out   bool     // it may be taken out
	keys.Shown
}

// Addable is a figure, or a table, that the file has not.
type Addable struct{ Path, Name, Text string }

// Slide is a figure to be dragged.
type Slide struct {
	Path, Name, Unit, Value string
	Least, Most, Step       string
}

// jobKeys are the keys of a job file, and their order.
type jobKeys struct {
	at  map[string]keys.Shown
	all []keys.Shown
}

func jobKeysIn(u qty.Unit) jobKeys { return jobKeysBy[u]() }

// jobKeysBy are the keys in each unit, made once: they are the same for every file.
var jobKeysBy = map[qty.Unit]func() jobKeys{qty.Inches: jobKeysOnce(qty.Inches), qty.Metric: jobKeysOnce(qty.Metric)}

func jobKeysOnce(u qty.Unit) func() jobKeys {
	return sync.OnceValue(func() jobKeys {
		t := jobKeys{at: map[string]keys.Shown{}, all: keys.ShownIn(u, &process.Job{})}
		for _, k := range t.all {
			t.at[k.Key] = k
		}
		return t
	})
}

var number = regexp.MustCompile(`\[[0-9]+\]`)

// keyOf is the name by which a path is explained.
func keyOf(path string) string { return number.ReplaceAllString(path, "") }

// unitOf is the unit of a file, inches where it does not say.
func unitOf(all []source.Value) qty.Unit {
	for _, v := range all {
		if v.Path == "units" && plain(v.Text) == "mm" {
			return qty.Metric
		}
	}
	return qty.Inches
}

// plain is a single value as a person reads it.
func plain(text string) string {
	if text == "" || text[0] != '"' && text[0] != '\'' {
		return text
	}
	var x struct{ V string }
	if _, err := toml.Decode("V = "+text, &x); err != nil {
		return text
	}
	return x.V
}

// shown is a value as the form shows it.
func shown(v source.Value, k keys.Shown) string {
	if !v.List {
		return plain(v.Text)
	}
	parts := make([]string, len(v.Elements))
	for i, e := range v.Elements {
		parts[i] = plain(e)
	}
	return strings.Join(parts, between(k))
}

// between parts the values of a list in the form.
func between(k keys.Shown) string {
	if k.Texts {
		return "\n"
	}
	return ", "
}

// builder puts a form together.
type builder struct {
	jobKeys
	have   map[string]source.Value
	counts map[string]int // elements of each list of tables, by its path
	groups []Group
	at     map[string]int
}

// FormOf is the form of a file. asked are the paths of figures and tables that it has not and
// that are to be filled in besides. The error is of a file that does not read as TOML.
func FormOf(data []byte, asked []string) (*Form, error) {
	all, err := source.Written(data)
	if err != nil {
		return nil, err
	}
	u := unitOf(all)
	b := &builder{jobKeys: jobKeysIn(u), have: map[string]source.Value{}, counts: counts(all), at: map[string]int{}}
	b.group("")
	for _, v := range all {
		b.have[v.Path] = v
	}
	for _, v := range all {
		b.put(v.Path, false)
	}
	for _, path := range b.missing() {
		b.put(path, true)
	}
	for _, path := range asked {
		for _, p := range b.inside(path) {
			b.put(p, true)
		}
	}
	f := &Form{Unit: u.String(), Groups: b.groups, Slides: b.slides(u)}
	for i := range f.Groups {
		g := &f.Groups[i]
		g.Title, g.Out = b.title(g.Path), b.last(g.Path)
		g.Add = b.addable(g.Path)
	}
	return f, nil
}

// counts are how many elements each list of tables has.
func counts(all []source.Value) map[string]int {
	n := map[string]int{}
	for _, v := range all {
		for _, at := range number.FindAllStringIndex(v.Path, -1) {
			i, _ := strconv.Atoi(v.Path[at[0]+1 : at[1]-1])
			n[v.Path[:at[0]]] = max(n[v.Path[:at[0]]], i+1)
		}
	}
	return n
}

// group is the group of a path: its first table, "" for what stands at the top.
func (b *builder) group(path string) *Group {
	first, _, inside := strings.Cut(path, ".")
	if !inside && !strings.HasSuffix(first, "]") && !b.jobKeys.at[first].Table {
		first = ""
	}
	i, ok := b.at[first]
	if !ok {
		i = len(b.groups)
		b.groups = append(b.groups, Group{Path: first})
		b.at[first] = i
	}
	return &b.groups[i]
}

// put puts a figure into its group.
func (b *builder) put(path string, added bool) {
	if b.jobKeys.at[keyOf(path)].Table { // an empty list of tables has no figure
		return
	}
	g := b.group(path)
	if slices.ContainsFunc(g.Fields, func(f Field) bool { return f.Path == path }) {
		return
	}
	k, v := b.jobKeys.at[keyOf(path)], b.have[path]
	f := Field{Path: path, Name: source.Counted(strings.TrimPrefix(path, g.Path+".")), Value: shown(v, k), Is: "line", Added: added, Out: !added && !k.Needed, Shown: k}
	switch {
	case k.Many && k.Texts:
		f.Is = "lines"
	case k.Type == "true or false":
		f.Is, f.Words = "word", []string{"true", "false"}
	case len(k.Words) > 0 && !k.Many:
		f.Is, f.Words = "word", k.Words
	default:
		if f.Words = b.links(keyOf(path)); f.Words != nil {
			f.Is = "link"
		}
	}
	if f.Is == "word" && f.Value != "" && !slices.Contains(f.Words, f.Value) { // a mistake stands there as it is
		f.Words = append([]string{f.Value}, f.Words...)
	}
	// Behind what stands before it in the same table.
	at := len(g.Fields)
	table, _ := cutLast(path)
	for i := range g.Fields {
		if t, _ := cutLast(g.Fields[i].Path); added && t == table {
			at = i + 1
		}
	}
	g.Fields = slices.Insert(g.Fields, at, f)
}

// cutLast parts a path at its last key.
func cutLast(path string) (table, key string) {
	i := strings.LastIndexByte(path, '.')
	if i < 0 {
		return "", path
	}
	return path[:i], path[i+1:]
}

// links are what a key may name that is built in, or stations.
func (b *builder) links(key string) (all []string) {
	switch key {
	case "machine":
		for _, m := range files.Machines() {
			all = append(all, m.ID)
		}
	case "material", "sleeve.material":
		for _, m := range files.Materials() {
			all = append(all, m.ID)
		}
	case "bar.material":
		for _, m := range files.BarMaterials() {
			all = append(all, m.ID)
		}
	case "cutter.material":
		for _, c := range files.CutterMaterials() {
			all = append(all, c.ID)
		}
	case "bore.station", "sweep.station":
		for i := range b.counts["station"] {
			if v, ok := b.have[fmt.Sprintf("station[%d].name", i)]; ok {
				all = append(all, plain(v.Text))
			}
		}
	}
	return all
}

// last is whether a group may be taken out: a table that may be left out, or the last of a list.
func (b *builder) last(group string) bool {
	list, n, element := strings.Cut(strings.TrimSuffix(group, "]"), "[")
	if !element {
		return group != "" && !b.jobKeys.at[group].Needed && b.under(group)
	}
	i, err := strconv.Atoi(n)
	return err == nil && i > 0 && i == b.counts[list]-1
}

// under is whether the file has a figure in a table.
func (b *builder) under(table string) bool {
	for path := range b.have {
		if strings.HasPrefix(path, table+".") || strings.HasPrefix(path, table+"[") {
			return true
		}
	}
	return false
}

// title heads a group, in words.
func (b *builder) title(group string) string {
	list, n, element := strings.Cut(strings.TrimSuffix(group, "]"), "[")
	words := map[string]string{"": "The job", "lineup": "line-up"}
	name, ok := words[list]
	if !ok {
		name = list
	}
	name = strings.ToUpper(name[:1]) + name[1:]
	if i, err := strconv.Atoi(n); element && err == nil {
		name += " " + strconv.Itoa(i+1)
		for _, key := range []string{"name", "station"} {
			if v, ok := b.have[group+"."+key]; ok {
				name += ": " + plain(v.Text)
			}
		}
	}
	return name
}

// slides are the figures to be dragged: how far the bar stands out, how thick it is there, and
// the nose of the cutter; of a bar or cutter that is named from a list none.
func (b *builder) slides(u qty.Unit) (all []Slide) {
	last := fmt.Sprintf("bar.steps[%d].", b.counts["bar.steps"]-1)
	stickout := last + "length"
	if _, ok := b.have["bar.cutter_at"]; ok {
		stickout = "bar.cutter_at"
	}
	coarse, fine := 0.0625, 0.001
	if u == qty.Metric {
		coarse, fine = 1, 0.1
	}
	for _, s := range []struct {
		path, name string
		step       float64
	}{{stickout, "Stickout", coarse}, {last + "diameter", "Bar diameter", coarse}, {"cutter.nose_radius", "Nose radius", fine}} {
		v, ok := b.have[s.path]
		x, err := strconv.ParseFloat(v.Text, 64)
		if !ok || err != nil || !(x > 0) || x > 1e6 {
			continue
		}
		down, up := math.Floor(x*0.4/s.step+1e-9), math.Ceil(x*0.4/s.step) // so that what stands there is one of the places
		if s.step == fine {
			down, up = math.Floor(x*0.75/s.step+1e-9), math.Ceil(x*1.5/s.step)
		}
		say := func(x float64) string { return strconv.FormatFloat(math.Round(x*1e6)/1e6, 'f', -1, 64) }
		all = append(all, Slide{s.path, s.name, u.String(), v.Text, say(x - down*s.step), say(x + up*s.step), say(s.step)})
	}
	return all
}
