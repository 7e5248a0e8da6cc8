package field

import (
	"fmt"
	"math"
	"reflect"
	"slices"

	"borewright/process/qty"
)

// Put stores a value where p points: a string, bool, int, float64, or a quantity;
// of a Choice its word, of a length the length.
func (f *Spec) Put(p, v any) {
	if f.Values != nil {
		v = f.Values[slices.Index(f.Words, v.(string))]
	}
	to := reflect.ValueOf(p).Elem()
	switch x := v.(type) {
	case float64:
		if f.Clock {
			v = math.Mod(x, 360)
		}
	case qty.Length:
		if to.Kind() == reflect.Float64 {
			v = x.MM()
		}
	}
	to.Set(reflect.ValueOf(v).Convert(to.Type()))
}

// PutAll stores a list.
func (f *Spec) PutAll(all []any) {
	if ends, two := f.To.([2]any); two {
		if len(all) == 2 {
			f.Put(ends[0], all[0])
			f.Put(ends[1], all[1])
		}
		return
	}
	to := reflect.ValueOf(f.To).Elem()
	if to.Kind() == reflect.Slice {
		to.Set(reflect.MakeSlice(to.Type(), len(all), len(all)))
	} else if to.Len() != len(all) {
		return
	}
	for i, v := range all {
		f.Put(to.Index(i).Addr().Interface(), v)
	}
}

// Each is a pointer to each element of a list, or to each end of two.
func (f *Spec) Each() (all []any) {
	if ends, two := f.To.([2]any); two {
		return ends[:]
	}
	return elements(reflect.ValueOf(f.To).Elem())
}

func elements(v reflect.Value) (all []any) {
	for i := range v.Len() {
		all = append(all, v.Index(i).Addr().Interface())
	}
	return all
}

// Figure is what p points to, as documents have it: a string, bool, int, float64
// in SI (lengths in mm, roughness in µm, forces in N, powers in W, torques in
// N·m, speeds in m/min and rev/min), or a []any of these.
func (f *Spec) Figure(p any) any {
	if ends, two := p.([2]any); two {
		return []any{f.Figure(ends[0]), f.Figure(ends[1])}
	}
	v := reflect.ValueOf(p).Elem()
	if k := v.Kind(); k == reflect.Slice || k == reflect.Array {
		all := make([]any, v.Len())
		for i, e := range elements(v) {
			all[i] = f.Figure(e)
		}
		return all
	}
	if i := slices.Index(f.Values, v.Interface()); i >= 0 {
		return f.Words[i]
	}
	switch x := v.Interface().(type) {
	case string, bool, int:
		return x
	case float64:
		if f.Kind == Length { // held in mm: written by whole nanometres
			return f.length(qty.FromMM(x))
		}
	case qty.Length:
		return f.length(x)
	case qty.Temperature:
		return f.Round(x.Celsius())
	case qty.Diameter:
		return f.length(qty.Length(x))
	}
	if v.Kind() == reflect.Float64 {
		return f.Round(v.Float())
	}
	return fmt.Sprint(v.Interface())
}

func (f *Spec) length(l qty.Length) float64 {
	if f.Kind == Rough || f.Microns {
		return f.Round(l.Microns())
	}
	return f.Round(l.MM())
}

// Round rounds a figure as documents have it.
func (f *Spec) Round(x float64) float64 {
	if f.AtMost > 0 {
		x = min(x, f.AtMost)
	}
	if f.Decimals == 0 {
		return x
	}
	s := math.Pow10(f.Decimals - 1)
	return math.Round(x*s)/s + 0 // no -0
}
