package job

import (
	"fmt"
	"slices"
)

// mostTagged is how many inputs stand on the tag of a thing of the plan.
const mostTagged = 3

// wholeTags are the inputs on the tags of what is no thing of a list, the first thought of first; those
// that do not matter for a job stand on none.
func wholeTags() map[string][]string {
	return map[string][]string{
		"shower":         {"shower.widthMM", "shower.depthMM", "shower.offsetMM"},
		"shower.widthMM": {"shower.widthMM", "shower.offsetMM"},
		"shower.depthMM": {"shower.depthMM", "room.edge", "room.rampRunMM"},
		"drain":          {"drain.lengthMM", "drain.offsetMM", "drain.forwardMM", "drain.trapSizeMM"},
		"waste":          {"waste.gradient", PipeSizeKey, "waste.nominalMM"},
		"waste.exit":     {ExitStackKey, "waste.exit.offsetMM", ExitAtKey, ExitInvertKey, "waste.exit.nominalMM"},
		JoistsKey:        {"floor.joists.firstOffsetMM", "floor.joists.spacingMM", "floor.joists.depthMM"},
	}
}

// Tagged are the paths, in a job's file, of the one to three inputs that stand on the tag of a thing of the plan, by the
// path of the thing: of what the job does not have none. Of a thing of a list they are the
// first that are always asked of it, but for the wall that it is at.
func (j *Job) Tagged(thing string) []string {
	if l, i, entry, ok := InList(thing); ok && entry == "" {
		return j.taggedOfList(l, i)
	}
	var out []string
	for _, key := range wholeTags()[thing] {
		if in, ok := FindInput(key); ok && in.Uses(j) {
			out = append(out, in.paths()...)
		}
	}
	if out == nil {
		out = j.taggedOfRow(thing)
	}
	return out[:min(len(out), mostTagged)]
}

// TaggedAlong are the paths on the tag of an edge of the shower, on a side, by the path of the edge: where glass stands along
// it the first of the edge's own and how wide and how high the glass is, else those of Tagged.
func (j *Job) TaggedAlong(thing string, side ShowerSide) []string {
	own := j.Tagged(thing)
	i := slices.IndexFunc(j.Shower.Screens, func(s Screen) bool { return s.Side == side })
	if i < 0 || len(own) == 0 {
		return own
	}
	glass := fmt.Sprintf("shower.screens[%d].", i)
	return append(own[:1:1], glass+"widthMM", glass+"heightMM")
}

// taggedOfList are the paths of the inputs on the tag of a thing of a list.
func (j *Job) taggedOfList(l List, i int) (out []string) {
	for _, e := range l.entries {
		if i < l.Count(j) && len(out) < mostTagged && e.Wall == nil && !e.Less && e.Uses(j, i) {
			out = append(out, l.Path(i, e))
		}
	}
	return out
}

// taggedOfRow are those of a thing that is a row of a table.
func (j *Job) taggedOfRow(thing string) (out []string) {
	for _, in := range inputs() {
		if in.Table == nil || !in.Uses(j) {
			continue
		}
		for row := range in.Table.Rows(j) {
			if in.Table.Row(row) == thing {
				for c := range in.Table.Columns {
					if !in.Table.Columns[c].Less {
						out = append(out, in.Table.Path(row, c))
					}
				}
			}
		}
	}
	return out
}

// paths are those of the fields of an input: of a table with one row its numbers.
func (in Input) paths() []string {
	if in.Table == nil || !in.Table.Single() {
		return []string{in.Key}
	}
	var out []string
	for c := range in.Table.Columns {
		out = append(out, in.Table.Path(0, c))
	}
	return out
}

// CellAt is the table, the row and the column that a path of a job's file leads to; ok is false where it
// leads to none.
func (j *Job) CellAt(path string) (in Input, row, column int, ok bool) {
	for _, in := range inputs() {
		if in.Table == nil {
			continue
		}
		for row := range in.Table.Rows(j) {
			column := slices.IndexFunc(in.Table.Columns, func(c Column) bool { return in.Table.Row(row)+c.Key == path })
			if column >= 0 {
				return in, row, column, true
			}
		}
	}
	return Input{}, 0, 0, false
}
