package field

import (
	"math"
	"reflect"
	"slices"

	"borewright/process/qty"
)

// held turns a plain number of a file into what is held.
func (f *Field) held(v any) any {
	if x, ok := v.(float64); ok && f.times != 0 {
		return x * f.times
	}
	return v
}

// put stores a value, as take gave it, where p points.
func (f *Field) put(p, v any) {
	if f.values != nil {
		v = f.values[slices.Index(f.words, v.(string))]
	}
	if x, ok := v.(float64); ok {
		if f.clock {
			x = math.Mod(x, 360)
		}
		v = x
	}
	switch p := p.(type) {
	case *string:
		*p = v.(string)
	case *bool:
		*p = v.(bool)
	case *int:
		*p = v.(int)
	case *float64:
		if l, ok := v.(qty.Length); ok {
			*p = l.MM()
		} else {
			*p = v.(float64)
		}
	case *qty.Length:
		*p = v.(qty.Length)
	case *qty.Diameter:
		*p = qty.Diameter(v.(qty.Length))
	default: // types of their own: forces, speeds, words
		to := reflect.ValueOf(p).Elem()
		to.Set(reflect.ValueOf(v).Convert(to.Type()))
	}
}

// putAll stores a list.
func (f *Field) putAll(all []any) {
	if ends, two := f.to.([2]any); two {
		if len(all) == 2 {
			f.put(ends[0], all[0])
			f.put(ends[1], all[1])
		}
		return
	}
	to := reflect.ValueOf(f.to).Elem()
	if to.Kind() == reflect.Slice {
		to.Set(reflect.MakeSlice(to.Type(), len(all), len(all)))
	} else if to.Len() != len(all) {
		return
	}
	for i, v := range all {
		f.put(to.Index(i).Addr().Interface(), v)
	}
}
