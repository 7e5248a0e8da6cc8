package source

import (
	"bytes"
	"slices"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2/unstable"
)

// Head is what a file says at its top, and which tables it has, without the values of its
// tables: enough to list thousands of files. The whole syntax is looked at.
type Head struct {
	Texts map[string]string // of the keys before the first table
	Names []string          // keys and tables of the file, the outermost part of each, once each
}

// HeadOf reads the head of a file. The problem is a mistake of syntax, nil where there is none.
func HeadOf(name string, data []byte) (h Head, prob *Problem) {
	h.Texts = map[string]string{}
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))
	mistake := func() *Problem {
		p := Problems{File: FileName(name)}
		Parse(data, &p)
		if len(p.Found) == 0 {
			return nil
		}
		return &p.Found[0]
	}
	if len(data) > LargestFile || !utf8.Valid(data) {
		return h, mistake()
	}
	var parser unstable.Parser
	parser.Reset(data)
	inTable := false
	for parser.NextExpression() {
		n := parser.Expression()
		key := n.Key()
		if !key.Next() {
			continue
		}
		word := string(key.Node().Data)
		if n.Kind == unstable.KeyValue && !inTable {
			if v := n.Value(); v.Kind == unstable.String {
				h.Texts[word] = string(v.Data)
			}
		}
		if n.Kind == unstable.Table || n.Kind == unstable.ArrayTable {
			inTable = true
		} else if inTable {
			continue
		}
		if !slices.Contains(h.Names, word) {
			h.Names = append(h.Names, word)
		}
	}
	if parser.Error() != nil {
		return h, mistake()
	}
	return h, nil
}
