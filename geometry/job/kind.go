package job

import (
	"strings"

	"underfall/geometry/unit"
)

// KindOf is what kind of number a path in a job's file leads to, as its row in the table of inputs has it;
// a length where no row has one.
func KindOf(path string) unit.Kind {
	if p, ok := Find(path); ok {
		return p.Kind
	}
	if l, _, rest, ok := inList(path); ok {
		for _, e := range l.entries {
			if e.Number != nil && (rest == "."+e.Key) {
				return e.Number.Kind
			}
		}
	}
	in, ok := InputOf(path)
	switch {
	case !ok:
	case in.Maybe != nil:
		return in.Maybe.Kind
	case in.Numbers != nil:
		return in.Numbers.Column.Kind
	case in.Table != nil:
		for _, c := range in.Table.Columns {
			if strings.HasSuffix(path, c.Key) {
				return c.Kind
			}
		}
	}
	return unit.Length
}
