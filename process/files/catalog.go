package files

import (
	"embed"
	"fmt"
	"path"
	"slices"
	"strings"

	"borewright/process"
	"borewright/process/source"
)

// What is built in is written in the same files that a user may write.
//
//go:embed catalog
var catalog embed.FS

// Machines are the built-in machines, by ID.
func Machines() []*process.Machine { return builtIn("machines", Machine) }

// Materials are the built-in work and sleeve materials, by ID.
func Materials() []*process.Material { return builtIn("materials", Material) }

// CutterMaterials are the built-in cutter materials, by ID.
func CutterMaterials() []*process.CutterMaterial { return builtIn("cutters", CutterMaterial) }

// BarMaterials are the built-in bar materials, by ID.
func BarMaterials() []*process.BarMaterial { return builtIn("bars", BarMaterial) }

// MaterialByID finds a built-in material; nil when there is none of that ID.
func MaterialByID(id string) *process.Material { return lookUp("materials", id, Material) }

// BarMaterialByID finds a built-in bar material; nil when there is none of that ID.
func BarMaterialByID(id string) *process.BarMaterial { return lookUp("bars", id, BarMaterial) }

type loadFunc[T any] func(name string, data []byte) (*T, error)

func builtIn[T any](dir string, load loadFunc[T]) []*T {
	var all []*T
	for _, id := range builtInIDs(dir) {
		all = append(all, lookUp(dir, id, load))
	}
	return all
}

func builtInIDs(dir string) []string {
	entries, err := catalog.ReadDir(path.Join("catalog", dir))
	if err != nil {
		panic(err) // embedded: only our own bug
	}
	var ids []string
	for _, e := range entries {
		ids = append(ids, strings.TrimSuffix(e.Name(), ".toml"))
	}
	slices.Sort(ids)
	return ids
}

func lookUp[T any](dir, id string, load loadFunc[T]) *T {
	if !slices.Contains(builtInIDs(dir), id) {
		return nil
	}
	name := path.Join("catalog", dir, id+".toml")
	data, err := catalog.ReadFile(name)
	if err == nil {
		var x *T
		if x, err = load(name, data); err == nil {
			return x
		}
	}
	panic(err) // embedded: only our own bug, and a test reads them all
}

// CutterMaterialByID finds a built-in cutter material; nil when there is none of that ID.
func CutterMaterialByID(id string) *process.CutterMaterial {
	return lookUp("cutters", id, CutterMaterial)
}

// BuiltIn is the file of a built-in thing: a kind, "machines", "materials", "cutters" or
// "bars", and its name there. The error says what there is.
func BuiltIn(kind, id string) ([]byte, error) {
	if !slices.Contains([]string{"machines", "materials", "cutters", "bars"}, kind) {
		return nil, fmt.Errorf("there are no %q; list machines, materials, cutters or bars", source.Show(kind))
	}
	ids := builtInIDs(kind)
	if !slices.Contains(ids, id) {
		return nil, fmt.Errorf("no %s is called %q; there are %s", strings.TrimSuffix(kind, "s"), source.Show(id), strings.Join(ids, ", "))
	}
	return catalog.ReadFile(path.Join("catalog", kind, id+".toml"))
}
