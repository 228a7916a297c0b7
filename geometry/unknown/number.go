package unknown

import (
	"math"
	"regexp"
	"strconv"
	"strings"

	"underfall/geometry"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/unit"
)

// inputDimension is an input by itself: a number with what it usually comes to, something that is so
// or not, what a wall is made of, what is known of the exit's level. False where nothing is known of
// what it may be.
func inputDimension(r *geometry.Result, key string) (dimension, bool) {
	if r.Stated.FlagAt(key) != nil {
		return flagDimension(r, key), true
	}
	if wall, of, ok := wallOf(key); ok && of == "kind" {
		return wallDimension(r, key, wall), true
	}
	d := dimension{key: key, what: r.Stated.PlaceOf(key), uses: func(j *job.Job) bool { return inUse(j, key) }}
	n := number{key: key, kind: job.KindOf(key), usual: usual(r, key)}
	switch {
	case key == levelKey && len(n.usual) > 0:
		d.choices, d.say = n.levels, n.sayLevel
	case len(n.usual) > 0:
		d.choices, d.say = n.choices, n.say
	default:
		return dimension{}, false
	}
	return d, true
}

// inUse tells whether an input makes a difference in a job; that of a wall only in the one that the
// waste goes out through.
func inUse(j *job.Job, key string) bool {
	if wall, _, ok := wallOf(key); ok && (j.Waste.Exit.Kind != job.ExitWall || j.Waste.Exit.Wall != wall) {
		return false
	}
	return j.HasInput(key) && j.Uses(key)
}

// indices are the numbers of things of lists in a key.
var indices = regexp.MustCompile(`\[(\d+)\]`)

// wallOf is which wall a key leads into, by its index, and to what of it.
func wallOf(key string) (wall int, of string, ok bool) {
	rest, ok := strings.CutPrefix(key, "room.walls[")
	index, of, cut := strings.Cut(rest, "].")
	wall, err := strconv.Atoi(index)
	return wall, of, ok && cut && err == nil
}

// usual are the least and the greatest that an input usually comes to in the region; none where
// nothing is known of that.
func usual(r *geometry.Result, key string) []float64 {
	of := ""
	if wall, what, ok := wallOf(key); ok && what == "thicknessMM" && wall < len(r.Stated.Room.Walls) {
		of = string(r.Stated.Room.Walls[wall].Kind)
	}
	all := r.Pack.Usual.Values(indices.ReplaceAllString(key, "[#]"), of)
	if len(all) < 2 {
		return nil
	}
	return []float64{all[0], all[len(all)-1]}
}

// number is an input that is a number.
type number struct {
	key   string
	kind  unit.Kind
	usual []float64
}

// drawnID is the id of what is drawn where that is no number, or one that is absent.
const drawnID = "as-drawn"

func idOf(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }

// set gives the number a value.
func (n number) set(v float64) edit.Edit {
	if p, ok := job.Find(n.key); ok {
		return edit.Number(p, v)
	}
	if l, i, entry, ok := job.InList(n.key); ok {
		for _, e := range l.Entries() {
			if e.Key == entry && e.Number != nil {
				return edit.ItemNumber(l, i, e, &v)
			}
		}
	}
	return edit.States(edit.Of(job.PlaceInFile(n.key), func(j *job.Job) { j.SetNumber(n.key, v) }), n.key)
}

// among are the choices of a value that is drawn and others.
func (n number) among(j *job.Job, others []float64) []choice {
	drawn, there := j.NumberAt(n.key)
	id := drawnID
	if there {
		id = idOf(drawn)
	}
	out := []choice{{id, []edit.Edit{edit.Confirm(n.key)}}}
	for _, v := range others {
		if !there || math.Abs(v-drawn) > plan.HairMM {
			out = append(out, choice{idOf(v), []edit.Edit{n.set(v)}})
		}
	}
	return out
}

func (n number) choices(j *job.Job) []choice { return n.among(j, n.usual) }

func (n number) say(id string, r *geometry.Result) message.Message {
	what := message.In("what", r.Stated.PlaceOf(n.key))
	v, err := strconv.ParseFloat(id, 64)
	if err != nil {
		return message.Of("unknown.absent", what)
	}
	return message.Of("unknown.number", what, message.Arg{Name: "value", Value: unit.Value(v, n.kind)})
}

// levels are what may be known of the exit's level: what is drawn, and that it lies no lower than the
// least that is usual, or than the greatest; of a pipe that is there, that it lies at them.
func (n number) levels(j *job.Job) []choice {
	out := []choice{{drawnID, []edit.Edit{edit.Confirm(levelKey)}}}
	for _, mm := range n.usual {
		level := job.NotBelow(mm)
		if j.Waste.Exit.Kind == job.ExitPipe {
			level = job.Exactly(mm)
		}
		if !level.Equal(j.Waste.Exit.Level) {
			out = append(out, choice{idOf(mm), []edit.Edit{edit.ExitLevel(level)}})
		}
	}
	return out
}

func (n number) sayLevel(id string, r *geometry.Result) message.Message {
	mm, err := strconv.ParseFloat(id, 64)
	switch {
	case err != nil:
		return message.Of("unknown.absent", message.In("what", r.Stated.PlaceOf(levelKey)))
	case r.Stated.Waste.Exit.Kind == job.ExitPipe:
		return message.Of("unknown.level", message.At("level", mm))
	}
	return message.Of("unknown.level-not-below", message.At("level", mm))
}

// The ids of what is so and what is not.
const (
	yesID = "yes"
	noID  = "no"
)

// flagDimension is something that is so or not.
func flagDimension(r *geometry.Result, key string) dimension {
	what := r.Stated.PlaceOf(key)
	return dimension{key: key, what: what, uses: func(j *job.Job) bool { return inUse(j, key) },
		choices: func(j *job.Job) []choice {
			drawn := *j.FlagAt(key)
			ids := [2]string{noID, yesID}
			if drawn {
				ids = [2]string{yesID, noID}
			}
			other := edit.States(edit.Of(what, func(j *job.Job) { *j.FlagAt(key) = !drawn }), key)
			return []choice{{ids[0], []edit.Edit{edit.Confirm(key)}}, {ids[1], []edit.Edit{other}}}
		},
		say: func(id string, _ *geometry.Result) message.Message {
			if id == yesID {
				return message.Of("unknown.yes", message.In("what", what))
			}
			return message.Of("unknown.no", message.In("what", what))
		}}
}

// usualWall makes a wall as thick as its kind mostly is, with studs, which can lie anywhere, clear of
// the hole through it.
func usualWall(pack *rule.Pack, j *job.Job, wall int) {
	w := &j.Room.Walls[wall]
	if all := pack.Usual.Values("room.walls[#].thicknessMM", string(w.Kind)); len(all) > 0 {
		w.ThicknessMM = all[len(all)/2]
	}
	if w.Kind == job.WallStud {
		w.FirstStudMM = within(j.Waste.Exit.OffsetMM-w.StudSpacingMM/2, w.StudSpacingMM)
	}
}

// wallDimension is what a wall is made of, each kind as thick as it mostly is.
func wallDimension(r *geometry.Result, key string, wall int) dimension {
	pack := r.Pack
	return dimension{key: key, what: r.Stated.PlaceOf(key), uses: func(j *job.Job) bool { return inUse(j, key) },
		choices: func(j *job.Job) []choice {
			drawn := j.Room.Walls[wall].Kind
			out := []choice{{string(drawn), []edit.Edit{edit.Confirm(key)}}}
			for _, c := range job.WallKinds().Choices {
				if c.Value == drawn {
					continue
				}
				made := edit.Wall(wall, c.Value)
				made = inOrder(made, edit.Of(made.What, func(j *job.Job) { usualWall(&pack, j, wall) }))
				out = append(out, choice{string(c.Value), []edit.Edit{made}})
			}
			return out
		},
		say: func(id string, _ *geometry.Result) message.Message { return wordOf(job.WallKinds(), id) }}
}
