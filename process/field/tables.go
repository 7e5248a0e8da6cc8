package field

import "borewright/process/fact"

// Table is a struct inside this one under a key of its own.
func (d *Desc) Table(v Described, key string) *Field {
	f := d.add(Table, v, key)
	f.open = func() *Desc { return describe(v) }
	return f
}

// Group is a table of the file whose keys are fields of this struct.
func (d *Desc) Group(key string, inside func(d *Desc)) *Field {
	sub := &Desc{part: d.part}
	inside(sub)
	d.marked = append(d.marked, sub.marked...)
	f := d.add(Table, nil, key)
	f.open = func() *Desc { return sub }
	return f
}

// pointer is a *T that is Described.
type pointer[T any] interface {
	*T
	Described
}

// Maybe is a table that may be left out: p stays nil then.
func Maybe[T any, P pointer[T]](d *Desc, p **T, key string) *Field {
	f := d.add(Table, p, key)
	f.open = func() *Desc {
		if *p == nil {
			return describe(P(new(T)))
		}
		return describe(P(*p))
	}
	f.Create = func() { *p = new(T) }
	f.here = func() bool { return *p != nil }
	return f
}

// Part describes fields of a struct that is only there when one of its keys is
// given, with keys in this table.
func Part[T any](d *Desc, p **T, inside func(t *T)) {
	t := *p
	if t == nil {
		t = new(T)
	}
	was := d.part
	d.part = &Optional{Here: func() bool { return *p != nil }, Create: func() { *p = t }}
	inside(t)
	d.part = was
	d.marked = append(d.marked, p)
}

// InMap is a table that becomes an entry of a map.
func InMap[T any, P pointer[T]](d *Desc, m *map[string]T, name, key string) *Field {
	f := d.add(Table, m, key)
	var t T
	f.open = func() *Desc {
		if x, ok := (*m)[name]; ok {
			t = x
		}
		return describe(P(&t))
	}
	f.here = func() bool { _, ok := (*m)[name]; return ok }
	f.Close = func() {
		if *m == nil {
			*m = map[string]T{}
		}
		(*m)[name] = t
	}
	return f
}

// Rows is a list of tables that are gathered from other fields: rows gives what
// is written, and make, which may be nil, makes room for n that are read back.
func Rows[T any, P pointer[T]](d *Desc, key string, rows func() []P, make func(n int) []P) *Field {
	f := d.add(Table, nil, key).list(0, Any)
	var all []P
	f.open = func() *Desc { return describe(P(new(T))) }
	f.Size = func(n int) {
		if make != nil {
			all = make(n)
		}
	}
	f.gather = func() int { all = rows(); return len(all) }
	f.item = func(i int) *Desc {
		if i >= len(all) {
			return describe(P(new(T)))
		}
		return describe(all[i])
	}
	return f
}

// Strings is a list of structs of which documents have one fact each.
func Strings[T any](d *Desc, p *[]T, key string, of func(*T) *fact.Fact) *Field {
	f := d.add(Said, p, key).list(0, Any)
	f.Facts = func() (all []*fact.Fact) {
		for i := range *p {
			all = append(all, of(&(*p)[i]))
		}
		return all
	}
	f.Size = func(n int) { *p = make([]T, n) }
	return f
}

// Also describes all of another struct in this table.
func (d *Desc) Also(of Described) { d.Only(d.only, of) }

// List is a list of tables, least to most of them.
func List[T any, P pointer[T]](d *Desc, p *[]T, key string, least, most int) *Field {
	return ListBy(d, p, key, func(d *Desc, t *T) { P(t).Describe(d) }).list(least, most)
}

// ListBy is a list of structs of a package that knows no descriptions: inside
// describes one.
func ListBy[T any](d *Desc, p *[]T, key string, inside func(d *Desc, t *T)) *Field {
	of := func(t *T) *Desc {
		sub := &Desc{}
		inside(sub, t)
		return sub
	}
	f := d.add(Table, p, key).list(0, Any)
	f.open = func() *Desc { return of(new(T)) }
	f.Size = func(n int) { *p = make([]T, n) }
	f.item = func(i int) *Desc {
		if i >= len(*p) {
			return of(new(T))
		}
		return of(&(*p)[i])
	}
	return f
}

// Any is the most elements of a list without a bound, as in documents.
const Any = 1 << 30

// Facts is a list of facts.
func (d *Desc) Facts(p *[]fact.Fact, key string) *Field {
	return Strings(d, p, key, func(f *fact.Fact) *fact.Fact { return f })
}
