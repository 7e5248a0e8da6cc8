package files

import (
	"borewright/process"
	"borewright/process/field"
	"borewright/process/field/keys"
	"borewright/process/qty"
)

// file is a kind of file: its name in one word, the key that a job names it by, what it is, and a
// blank one whose description lists the keys.
type file struct {
	name, under, what string
	blank             field.Described
}

func kinds() []file {
	return []file{
		{"job", "", "job file", &process.Job{}},
		{"machine", "machine", "machine file", &process.Machine{}},
		{"material", "material", "material file", &process.Material{}},
		{"cutter", "cutter.material", "cutter material file", &process.CutterMaterial{}},
		{"bar", "bar.material", "bar material file", &process.BarMaterial{}},
		{"bars", "bars", "list of bars and cutters", &Shop{}},
		{"results", "results", "results file", &entries{}},
	}
}

// Keys is every key of the job file and of the files that it may name, in the
// order in which they are best written. Keys of a machine file stand under
// "machine.", of a material file under "material." and so on.
func Keys() []keys.Entry {
	var all []keys.Entry
	for _, f := range kinds() {
		what := f.what
		if f.under == "" {
			what = ""
		}
		all = append(all, keys.Entries(f.under, what, f.blank)...)
	}
	return all
}

// Explain finds what a key means, as keys.Explain among Keys.
func Explain(key string) ([]keys.Entry, error) { return keys.Explain(key, Keys()) }

// Schemas are the kinds of file that Schema knows.
func Schemas() (names []string) {
	for _, f := range kinds() {
		names = append(names, f.name)
	}
	return names
}

// Schema is the JSON Schema of a kind of file, nil where there is no such kind.
func Schema(name string) map[string]any {
	for _, f := range kinds() {
		if f.name == name {
			return keys.Schema("borewright "+f.what, f.blank)
		}
	}
	return nil
}

// Template is a job file to start from, in inches or mm: it loads and plans as
// it stands, and explains each part.
func Template(u qty.Unit) []byte {
	data, err := catalog.ReadFile("catalog/new/" + u.String() + ".toml")
	if err != nil {
		panic(err) // embedded: only our own bug
	}
	return data
}
