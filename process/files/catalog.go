package files

import (
	"embed"
	"fmt"
	"path"
	"reflect"
	"slices"
	"strings"
	"sync"

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

// read is what of that was read: each file once, a copy for each that asks.
var read sync.Map

func lookUp[T any](dir, id string, load loadFunc[T]) *T {
	if x, is := read.Load(dir + "/" + id); is {
		return copyOf(x.(*T))
	}
	if !slices.Contains(builtInIDs(dir), id) {
		return nil
	}
	name := path.Join("catalog", dir, id+".toml")
	data, err := catalog.ReadFile(name)
	if err == nil {
		var x *T
		if x, err = load(name, data); err == nil {
			read.Store(dir+"/"+id, x)
			return copyOf(x)
		}
	}
	panic(err) // embedded: only our own bug, and a test reads them all
}

// copyOf is a copy that shares nothing with what was read, so that it may be changed.
func copyOf[T any](x *T) *T {
	y := *x
	unshare(reflect.ValueOf(&y).Elem())
	return &y
}

// unshare gives a value lists, maps and pointers of its own.
func unshare(v reflect.Value) {
	if k := v.Kind(); (k == reflect.Pointer || k == reflect.Slice || k == reflect.Map) && v.IsNil() {
		return
	}
	switch v.Kind() {
	case reflect.Pointer:
		own := reflect.New(v.Type().Elem())
		own.Elem().Set(v.Elem())
		unshare(own.Elem())
		v.Set(own)
	case reflect.Slice:
		own := reflect.MakeSlice(v.Type(), v.Len(), v.Len())
		reflect.Copy(own, v)
		for i := range own.Len() {
			unshare(own.Index(i))
		}
		v.Set(own)
	case reflect.Map:
		own := reflect.MakeMapWithSize(v.Type(), v.Len())
		for at := v.MapRange(); at.Next(); {
			x := reflect.New(v.Type().Elem()).Elem()
			x.Set(at.Value())
			unshare(x)
			own.SetMapIndex(at.Key(), x)
		}
		v.Set(own)
	case reflect.Struct:
		for i := range v.NumField() {
			if f := v.Field(i); f.CanSet() {
				unshare(f)
			}
		}
	}
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
