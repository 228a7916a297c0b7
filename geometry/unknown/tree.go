package unknown

import (
	"slices"

	"underfall/geometry"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
)

// dimension is an input of which several values are possible, as the cases grow out of it.
type dimension struct {
	key  string
	what message.Message
	// uses tells whether it makes a difference in a job.
	uses func(*job.Job) bool
	// choices are what it may be in a job; the first leaves it as it is drawn.
	choices func(*job.Job) []choice
	// say says a choice, by its id, in what the job comes to with it.
	say func(id string, r *geometry.Result) message.Message
}

// choice is one of the values, and the ways to build with it of which the best counts.
type choice struct {
	id   string
	ways []edit.Edit
}

// unused stands for the choice of a dimension that makes no difference.
const unused = -1

// way is a way to build a case: the edit that makes the job of it.
type way struct {
	edit edit.Edit
	job  job.Job
}

// then is the way with an edit more.
func (w way) then(e edit.Edit) way {
	before := w.edit
	return way{edit.Of(before.What, func(j *job.Job) { *j = e.Apply(before.Apply(*j)) }), e.Apply(w.job)}
}

// leaf is a case before it is worked out.
type leaf struct {
	// is are the choices by dimension, ids what they are called.
	is  []int
	ids []string
	// ways are those to build it, at least one; what the first is decides what makes a difference.
	ways []way
	// varied tells that it is another job than is drawn.
	varied bool
	// of is the dimension that a leaf grown alone varies, from the leaf of an index.
	of, from int
}

// job is the case built the first way.
func (l *leaf) job() *job.Job { return &l.ways[0].job }

// way is the edit that states a choice of a job, by its id; of several ways the one that sets the base
// as a case does.
func (d dimension) way(stated *job.Job, id string, like *job.Job) edit.Edit {
	for _, c := range d.choices(stated) {
		for i, way := range c.ways {
			if c.id == id && (i == len(c.ways)-1 || way.Apply(*stated).Base.Support == like.Base.Support) {
				return way
			}
		}
	}
	return edit.Confirm(d.key)
}

// tree are the cases of some dimensions.
type tree struct {
	// leaves are every pairing of the dimensions that fit in; alone are those of the others, each
	// with all else as it is in the leaf that it grows from.
	leaves, alone []leaf
	isAlone       []bool
	untried       []string
}

// grow pairs the choices of dimensions.
func grow(stated job.Job, dims []dimension) tree {
	t := tree{leaves: []leaf{{ways: []way{{edit.Of(message.Of("edit.found-out"), func(*job.Job) {}), stated}}}},
		isAlone: make([]bool, len(dims))}
	for d := range dims {
		var next []leaf
		for _, l := range t.leaves {
			next = append(next, l.branch(dims[d])...)
		}
		if t.isAlone[d] = len(next) > mostCases; t.isAlone[d] {
			for i, l := range t.leaves {
				t.leaves[i] = l.branch(dims[d])[0]
			}
			continue
		}
		t.leaves = next
	}
	for d := range dims {
		if !t.isAlone[d] {
			continue
		}
		grown := t.grownAlone(d, dims[d])
		if len(t.leaves)+len(t.alone)+len(grown) > mostCases {
			t.untried = append(t.untried, dims[d].key)
			continue
		}
		t.alone = append(t.alone, grown...)
	}
	return t
}

// branch are the leaves that come of a leaf by a dimension.
func (l leaf) branch(d dimension) []leaf {
	grown := func(i int, c choice) leaf {
		out := l
		out.is, out.ids = append(slices.Clip(l.is), i), append(slices.Clip(l.ids), c.id)
		return out.with(c, i > 0)
	}
	if !d.uses(l.job()) {
		return []leaf{grown(unused, choice{})}
	}
	var out []leaf
	for i, c := range d.open(l.job()) {
		out = append(out, grown(i, c))
	}
	return out
}

// open are the choices in a job that leave what a person holds where it is.
func (d dimension) open(j *job.Job) []choice {
	if len(j.Standing(job.Held)) == 0 {
		return d.choices(j)
	}
	var out []choice
	for i, c := range d.choices(j) {
		c.ways = slices.DeleteFunc(slices.Clone(c.ways), func(way edit.Edit) bool {
			to := way.Apply(*j)
			return i > 0 && len(j.Moved(&to, job.Held)) > 0
		})
		if len(c.ways) > 0 {
			out = append(out, c)
		}
	}
	return out
}

// with is the leaf with a choice made, in all the ways there are; varied tells that it is not the one
// that is drawn.
func (l leaf) with(c choice, varied bool) leaf {
	if len(c.ways) == 0 {
		return l
	}
	var ways []way
	for _, before := range l.ways {
		for _, e := range c.ways {
			ways = append(ways, before.then(e))
		}
	}
	l.ways, l.varied = ways, l.varied || varied
	return l
}

// grownAlone are the leaves of a dimension's further choices, from the first leaf that it makes a
// difference in; none where it makes none.
func (t *tree) grownAlone(d int, dim dimension) []leaf {
	for i, l := range t.leaves {
		if l.is[d] == unused {
			continue
		}
		var out []leaf
		for k, c := range dim.open(l.job()) {
			if k == 0 {
				continue
			}
			grown := l.with(c, true)
			grown.is, grown.ids = slices.Clone(l.is), slices.Clone(l.ids)
			grown.is[d], grown.ids[d], grown.of, grown.from = k, c.id, d, i
			out = append(out, grown)
		}
		return out
	}
	return nil
}

// mostBeside is how many values of what is assumed are tried at most.
const mostBeside = 24

// around are leaves for the further choices of dimensions that make no cases: each from the first
// leaf that it makes a difference in.
func (t *tree) around(dims []dimension) (out []leaf) {
	for d, dim := range dims {
		i := slices.IndexFunc(t.leaves, func(l leaf) bool { return dim.uses(l.job()) })
		if i < 0 {
			continue
		}
		choices := dim.open(t.leaves[i].job())
		if len(out)+len(choices)-1 > mostBeside {
			continue
		}
		for _, c := range choices[1:] {
			grown := t.leaves[i].with(c, true)
			grown.is, grown.ids, grown.of, grown.from = nil, []string{c.id}, d, i
			out = append(out, grown)
		}
	}
	return out
}

// unknowns are the dimensions with every value that some case has, each with the way to build that the
// first of these cases has.
func (t *tree) unknowns(stated *job.Job, dims []dimension, cases []Case) []Unknown {
	out := make([]Unknown, len(dims))
	for d, dim := range dims {
		u := Unknown{Key: dim.key, What: dim.what, Alone: t.isAlone[d]}
		for i, l := range slices.Concat(t.leaves, t.alone) {
			known := slices.ContainsFunc(u.Values, func(v Value) bool { return v.ID == l.ids[d] })
			if l.is[d] != unused && !known {
				u.Values = append(u.Values, Value{Unknown: d, ID: l.ids[d], Edit: dim.way(stated, l.ids[d], &cases[i].Job)})
			}
		}
		out[d] = u
	}
	return out
}
