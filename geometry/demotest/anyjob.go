package demotest

import (
	"math"

	"pgregory.net/rapid"
	"underfall/assets"
	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// AnyJob draws a valid job: a room or a demo with its choices and many of its numbers
// changed at random, levels measured as built among them. What would make it
// invalid is left out, so that every draw gives a job.
func AnyJob(t *rapid.T) job.Job {
	rooms, err := readRooms()
	if err != nil {
		t.Fatal(err)
	}
	demos, err := assets.Demos()
	if err != nil {
		t.Fatal(err)
	}
	demos = append(rooms, demos...)
	j := demos[rapid.IntRange(0, len(demos)-1).Draw(t, "demo")].Job.Clone()
	try := func(change func(*job.Job)) {
		k := j.Clone()
		change(&k)
		k.WorkOut()
		if len(k.Validate()) == 0 {
			j = k
		}
	}
	try(func(k *job.Job) {
		k.Region = rapid.SampledFrom([]string{"UK", "IE", "US", "AU", "NZ", "DE"}).Draw(t, "region")
	})
	try(func(k *job.Job) { k.Units = one(t, "units", job.UnitSystems()) })
	try(func(k *job.Job) { k.Floor.Kind = one(t, "floor", job.FloorKinds()) })
	try(func(k *job.Job) { k.Base.Support = one(t, "support", job.SupportKinds()) })
	try(func(k *job.Job) { k.Base.Height = one(t, "height", job.HeightModes()) })
	try(func(k *job.Job) { k.Former.Fall = one(t, "fall", job.FallKinds()) })
	try(func(k *job.Job) { k.Former.Ends = one(t, "ends", job.EndsKinds()) })
	try(func(k *job.Job) { k.Room.Edge = one(t, "edge", job.EdgeKinds()) })
	try(func(k *job.Job) { k.Shower.Wall = rapid.IntRange(0, len(k.Room.Outline)-1).Draw(t, "wall") })
	try(func(k *job.Job) { k.Drain.OutletTurnDeg = 90 * float64(rapid.IntRange(0, 3).Draw(t, "outlet")) })
	try(func(k *job.Job) {
		k.Waste.Exit = job.Exit{Kind: one(t, "exit", job.ExitKinds()), Wall: rapid.IntRange(0, 3).Draw(t, "exit wall"),
			OffsetMM: float64(rapid.IntRange(0, 3000).Draw(t, "along")), At: plan.Point{float64(rapid.IntRange(-500, 3000).Draw(t, "ex")), float64(rapid.IntRange(-500, 3000).Draw(t, "ey"))}}
	})
	try(func(k *job.Job) {
		v := rapid.Float64Range(-300, 300).Draw(t, "invert")
		switch one(t, "exit level", job.ExitLevelKinds()) {
		case job.ExitNotBelow:
			k.Waste.Exit.Level = job.NotBelow(v)
		case job.ExitExactly:
			k.Waste.Exit.Level = job.Exactly(v)
		}
	})
	for _, l := range job.Lists() {
		if rapid.IntRange(0, 4).Draw(t, l.Key+" more") == 0 {
			try(l.Add)
		}
		for _, e := range l.Entries() {
			if i := l.Count(&j) - 1; i >= 0 && e.Uses(&j, i) && rapid.IntRange(0, 2).Draw(t, l.Key+" changed") == 0 {
				try(func(k *job.Job) { changeItem(t, k, l, i, e) })
			}
		}
	}
	if rapid.IntRange(0, 3).Draw(t, "trimmed") == 0 {
		try(func(k *job.Job) { trimSome(t, k) })
	}
	for i := range new(job.AsBuilt).Levels() {
		if rapid.IntRange(0, 4).Draw(t, "measured") == 0 {
			v := rapid.Float64Range(-400, 400).Draw(t, "measured level")
			try(func(k *job.Job) { *k.AsBuilt.Levels()[i].MM = &v })
		}
	}
	for _, p := range job.Parameters() {
		if rapid.IntRange(0, 4).Draw(t, p.Key+" set") == 0 {
			// To a micrometre: nobody types a gap of less.
			v := math.Round(rapid.Float64Range(p.Least, p.Greatest).Draw(t, p.Key)*1000) / 1000
			try(func(k *job.Job) { *k = p.With(*k, v) })
		}
	}
	return j
}

// trimSome draws one opening in up to three joists side by side, with both ends in the room
// or one at a wall.
func trimSome(t *rapid.T, k *job.Job) {
	n := len(k.JoistLines().Lines)
	if n == 0 {
		return
	}
	trim := job.Trim{Joist: rapid.IntRange(1, n).Draw(t, "first cut"), Further: rapid.IntRange(0, 2).Draw(t, "further cut")}
	length := k.JoistLines().Lines[trim.Joist-1].LengthMM()
	a, b := rapid.IntRange(0, int(length)).Draw(t, "one end"), rapid.IntRange(0, int(length)).Draw(t, "other end")
	trim.FromMM, trim.ToMM = float64(min(a, b)), float64(max(a, b))
	switch rapid.IntRange(0, 3).Draw(t, "at a wall") {
	case 0:
		trim.FromMM = 0
	case 1:
		trim.ToMM = length
	}
	k.Floor.Joists.Trims = append(k.Floor.Joists.Trims, trim)
}

// changeItem draws another statement about a thing of a list.
func changeItem(t *rapid.T, k *job.Job, l job.List, i int, e job.Entry) {
	label := l.Key + "." + e.Key
	switch {
	case e.Number != nil:
		v := math.Round(rapid.Float64Range(max(e.Number.Least, -5000), min(e.Number.Greatest, 5000)).Draw(t, label)*1000) / 1000
		e.Number.Set(k, i, &v)
	case e.Choice != nil:
		e.Choice.Set(k, i, rapid.SampledFrom(e.Choice.Values).Draw(t, label))
	case e.Flag != nil:
		*e.Flag(k, i) = rapid.Bool().Draw(t, label)
	case e.Corner != nil:
		*e.Corner(k, i) = rapid.IntRange(0, len(k.Room.Outline)-1).Draw(t, label)
	case e.Wall != nil:
		*e.Wall(k, i) = rapid.IntRange(0, len(k.Room.Outline)-1).Draw(t, label)
	}
}

func one[T ~string](t *rapid.T, label string, e job.Enum[T]) T {
	return T(rapid.SampledFrom(e.Values()).Draw(t, label))
}
