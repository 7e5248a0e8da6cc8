package field

import (
	"fmt"
	"reflect"
)

// Undescribed lists the fields of a struct, and of the structs inside it, that
// its description neither names nor excuses: "Station.Relief".
func Undescribed(x Described) []string {
	marked := map[uintptr]map[reflect.Type]bool{}
	var mark func(p any)
	mark = func(p any) {
		if ends, two := p.([2]any); two {
			mark(ends[0])
			mark(ends[1])
			return
		}
		v := reflect.ValueOf(p)
		if marked[v.Pointer()] == nil {
			marked[v.Pointer()] = map[reflect.Type]bool{}
		}
		marked[v.Pointer()][v.Type().Elem()] = true
	}
	for _, p := range describe(x).marked {
		mark(p)
	}
	var out []string
	var walk func(v reflect.Value, name string)
	walk = func(v reflect.Value, name string) {
		for i := range v.NumField() {
			f, of := v.Field(i), name+"."+v.Type().Field(i).Name
			switch at := v.Type().Field(i).PkgPath; {
			case at != "" && at != reflect.TypeOf(x).Elem().PkgPath(): // inside another package
			case marked[f.Addr().Pointer()][f.Type()]:
			case f.Kind() == reflect.Struct:
				walk(f, of)
			case f.Kind() == reflect.Array:
				for j := range f.Len() {
					if e := f.Index(j); !marked[e.Addr().Pointer()][e.Type()] {
						out = append(out, fmt.Sprintf("%s[%d]", of, j))
					}
				}
			default:
				out = append(out, of)
			}
		}
	}
	v := reflect.ValueOf(x).Elem()
	walk(v, v.Type().Name())
	return out
}
