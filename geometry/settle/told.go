package settle

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"

	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/unit"
)

// moved tells what moved along with the change, one thing at a time, in the order of the job's file.
func (s *settler) moved() (out []Moved) {
	if len(s.edited) == 0 {
		return nil
	}
	var keys []string
	for _, key := range s.edited {
		if !s.stated(key) && !(s.renumbered(key) && s.sameWall(key)) {
			keys = append(keys, key)
		}
	}
	if s.resettled {
		for _, key := range differing(&s.applied, &s.job) {
			if !slices.Contains(keys, key) && !s.isAdded(key) {
				keys = append(keys, key)
			}
		}
	}
	var order []string
	of := map[string][]string{}
	for _, key := range keys {
		t := s.toldWith(thingOf(key), keys)
		if of[t] == nil {
			order = append(order, t)
		}
		of[t] = append(of[t], key)
	}
	for _, t := range order {
		if mine := s.differ(of[t]); slices.ContainsFunc(mine, s.shows) {
			out = append(out, Moved{s.tell(t, mine), mine})
		}
	}
	return append(out, s.readingsOutside()...)
}

// toldWith is the thing that another is told with: a part that was taken in the place of one brings its
// numbers.
func (s *settler) toldWith(t string, keys []string) string {
	p, ok := map[string]string{"drain": "parts.drain", "waste": "parts.pipe", "base": "parts.boards", "former": "parts.former"}[t]
	if _, chosen := chosenPart(&s.job, p); ok && chosen && slices.Contains(keys, p) {
		return p
	}
	return t
}

// chosenPart is the part that a path of a job's file leads to.
func chosenPart(j *job.Job, key string) (part.Part, bool) {
	v, ok := at(j, key)
	if !ok || v.Kind() != reflect.Pointer || v.IsNil() {
		return nil, false
	}
	p, ok := v.Elem().Interface().(part.Part)
	return p, ok
}

// sameWall tells whether a path leads to a wall that looks the way that it did before, whatever its number.
func (s *settler) sameWall(key string) bool {
	const leastCos = 0.9
	out := func(j *job.Job) plan.Point {
		v, ok := at(j, key)
		n := len(j.Room.Outline)
		if !ok || v.Int() < 0 || int(v.Int()) >= n {
			return plan.Point{}
		}
		a, b := room(j.Room.Outline).side(int(v.Int()))
		along := plan.Left(b.Sub(a).Normalize())
		return along.Mul(math.Copysign(1, -plan.Ring(j.Room.Outline).SignedArea()))
	}
	return out(s.before).Dot(out(&s.job)) >= leastCos
}

// shows tells whether what is at a path reads otherwise than before: a length that moved by less than is shown does not.
func (s *settler) shows(key string) bool {
	was, had := valueOf(s.beside(key), key)
	is, has := valueOf(&s.job, key)
	before, length := was.(message.Length)
	after, still := is.(message.Length)
	if !had || !has || !length || !still {
		return true
	}
	return unit.Rounded(before.MM, before.Round, s.job.Units) != unit.Rounded(after.MM, after.Round, s.job.Units)
}

// differ are the paths at which the settled job is another than it was.
func (s *settler) differ(keys []string) []string {
	return slices.DeleteFunc(keys, func(key string) bool {
		was, had := at(s.beside(key), key)
		is, has := at(&s.job, key)
		return had && has && reflect.DeepEqual(was.Interface(), is.Interface())
	})
}

// beside is the job to hold the settled one against at a path: the one before, unless a list had more or
// fewer things then.
func (s *settler) beside(key string) *job.Job {
	if list, _, ok := strings.Cut(key, "["); ok {
		was, had := at(s.before, list)
		is, has := at(&s.job, list)
		if !had || !has || was.Kind() == reflect.Slice && was.Len() != is.Len() {
			return &s.applied
		}
	}
	return s.before
}

// readingsOutside tells of laser readings that the room no longer takes in.
func (s *settler) readingsOutside() (out []Moved) {
	if !s.changed("room.outline") || len(s.before.SpotLevels) != len(s.job.SpotLevels) {
		return nil
	}
	old, now := room(s.before.Room.Outline), room(s.job.Room.Outline)
	for i, r := range s.job.SpotLevels {
		mm, in := now.clear(r.At)
		if _, was := old.clear(s.before.SpotLevels[i].At); was && !in && mm > plan.HairMM {
			out = append(out, Moved{What: message.Of("moved.reading-outside", message.No("n", i+1))})
		}
	}
	return out
}

// tell is the sentence about one thing.
func (s *settler) tell(t string, keys []string) message.Message {
	start := message.In("thing", s.named(t, true))
	switch {
	case t == "shower.head" && s.showerMoved():
		return message.Of("moved.head")
	case slices.Contains(keys, "waste.exit.kind"):
		return message.Of("moved.thing", start, message.In("changes", s.change("waste.exit.kind")))
	case slices.ContainsFunc(keys, func(key string) bool { return strings.HasPrefix(key, t+".at") && !strings.HasSuffix(key, "MM") }):
		return s.tellPlace(t, start)
	case strings.HasPrefix(t, "parts"):
		return s.tellPart(t)
	case strings.HasPrefix(t, "asBuilt."):
		return message.Of("moved.level-lost", message.In("what", s.job.PlaceOf(t)))
	}
	var changes []message.Message
	wall := message.Message{}
	for _, key := range keys {
		if strings.HasSuffix(key, ".wall") {
			v, _ := at(&s.job, key)
			wall = s.toWall(start, int(v.Int()))
			continue
		}
		changes = append(changes, s.change(key))
	}
	all := message.Arg{Name: "changes", Value: message.List{Items: changes}}
	switch {
	case wall.IsZero() && s.statedSmaller(keys):
		return message.Of("moved.smaller-than-stated", start, all)
	case wall.IsZero():
		return message.Of("moved.thing", start, all)
	case len(changes) > 0 && wall.ID == "moved.to-wall-lettered":
		return message.Of("moved.to-wall-lettered-and", append(wall.Args, all)...)
	case len(changes) > 0:
		return message.Of("moved.to-wall-and", append(wall.Args, all)...)
	}
	return wall
}

// statedSmaller tells whether a size of the shower that somebody has stated gave way.
func (s *settler) statedSmaller(keys []string) bool {
	return slices.ContainsFunc(keys, func(key string) bool {
		return (key == "shower.widthMM" || key == "shower.depthMM") && !s.before.StandingOf(key).Open()
	})
}

// toWall says at which wall a thing is now, by its index; by its letter of before too where the walls
// have other letters, as the first doorway is in another of them.
func (s *settler) toWall(start message.Arg, wall int) message.Message {
	was, is := s.before.Room.Letter(wall), s.job.Room.Letter(wall)
	if was != is && len(s.before.Room.Outline) == len(s.job.Room.Outline) {
		return message.Of("moved.to-wall-lettered", start, s.before.Room.Wall("was", wall), s.job.Room.Wall("wall", wall))
	}
	return message.Of("moved.to-wall", start, s.job.Room.Wall("wall", wall))
}

// showerMoved tells whether the shower has another place than before.
func (s *settler) showerMoved() bool {
	sound := s.before.Shower.Wall < len(s.before.Room.Outline) && s.sound()
	return sound && s.before.ShowerCorners() != s.job.ShowerCorners()
}

// tellPlace says how far something has moved that stands free in the room, and how it stands now.
func (s *settler) tellPlace(t string, start message.Arg) message.Message {
	was, had := placeOf(s.beside(t+".at"), t)
	is, has := placeOf(&s.job, t)
	if !had || !has || len(s.job.Room.Outline) == 0 {
		return message.Of("moved.other", start)
	}
	wall, nearest := 0, math.Inf(1)
	now := room(s.job.Room.Outline)
	for i := range now {
		a, b := now.side(i)
		if mm := plan.DistanceToSegment(is, a, b); mm < nearest-plan.HairMM {
			wall, nearest = i, mm
		}
	}
	return message.Of("moved.place", start, message.Along("by", is.Sub(was).Len()), message.Along("off", nearest),
		wallArg("wall", &s.job.Room, wall))
}

func placeOf(j *job.Job, t string) (p plan.Point, ok bool) {
	v, ok := at(j, t+".at")
	if ok {
		p, ok = v.Interface().(plan.Point)
	}
	return p, ok
}

// tellPart says which part is chosen no more, or is chosen now.
func (s *settler) tellPart(t string) message.Message {
	is, chosen := chosenPart(&s.job, t)
	was, had := chosenPart(s.before, t)
	switch {
	case chosen && had:
		return message.Of("moved.part-instead", message.In("part", part.Name(is)), message.In("was", part.Name(was)))
	case chosen:
		return message.Of("moved.part-chosen", message.In("part", part.Name(is)))
	case had:
		return message.Of("moved.part-gone", message.In("part", part.Name(was)))
	}
	return message.Of("moved.other", message.In("thing", s.job.PlaceOf(t)))
}

// change says what one statement was and is.
func (s *settler) change(key string) message.Message {
	was, had := valueOf(s.beside(key), key)
	is, has := valueOf(&s.job, key)
	if !had || !has {
		return message.Of("moved.change-other", message.In("what", s.job.PlaceOf(key)))
	}
	before, after := message.Arg{Name: "before", Value: was}, message.Arg{Name: "after", Value: is}
	switch name := key[strings.LastIndexByte(key, '.')+1:]; {
	case name == "offsetMM" && (strings.HasPrefix(key, "room.") || key == "shower.offsetMM" || strings.HasPrefix(key, "waste.exit")):
		return s.fromCorner(key, before, after)
	case name == "offsetMM" && key != "drain.offsetMM":
		return message.Of("moved.from-end", before, after)
	case name == "widthMM":
		return message.Of("moved.width", before, after)
	case name == "depthMM" && strings.HasPrefix(key, showerKey):
		return message.Of("moved.depth", before, after)
	case name == "lengthMM":
		return message.Of("moved.length", before, after)
	case name == "kind" && key == "waste.exit.kind":
		return message.Of("moved.became", before, after)
	case name == "atMM":
		return message.Of("moved.along", before, after)
	}
	return message.Of("moved.value", message.In("what", s.entryName(key)), before, after)
}

// fromCorner says how far from which corner something was and is; from none where it has no wall.
func (s *settler) fromCorner(key string, before, after message.Arg) message.Message {
	was, had := s.beside(key).WallAlong(key)
	is, has := s.job.WallAlong(key)
	if !had || !has {
		return message.Of("moved.along-wall", before, after)
	}
	corner := message.AtCorner("corner", s.job.Room.Corner(is))
	if was == is {
		return message.Of("moved.from-corner", before, after, corner)
	}
	return message.Of("moved.from-other-corner", before, after, corner)
}

// entryName is what a statement is called by itself.
func (s *settler) entryName(key string) message.Message {
	if p, ok := job.Find(key); ok {
		return message.Of(p.Label())
	}
	if l, _, entry, ok := job.InList(key); ok {
		for _, e := range l.Entries() {
			if e.Key == entry {
				return message.Of(l.Label(e))
			}
		}
	}
	return s.job.PlaceOf(key)
}

// valueOf is what a path leads to, to be said; ok is false where it cannot be said in a word.
func valueOf(j *job.Job, key string) (v message.Value, ok bool) {
	if p, ok := job.Find(key); ok {
		return whole(unit.Value(p.Get(*j), p.Kind), p.Step), true
	}
	is, ok := at(j, key)
	if !ok {
		return nil, false
	}
	if l, i, entry, in := job.InList(key); in {
		for _, e := range l.Entries() {
			if v, ok := entryValue(j, i, e); ok && e.Key == entry {
				return v, true
			}
		}
	}
	switch x := is.Interface().(type) {
	case *float64:
		if x == nil {
			return message.Said(message.Of("moved.none")), true
		}
		return whole(unit.Value(*x, job.KindOf(key)), 1), true
	case float64:
		return whole(unit.Value(x, job.KindOf(key)), 1), true
	}
	if id, ok := job.WordOf(is.Interface()); ok {
		return message.Said(message.Of(id)), true
	}
	return nil, false
}

// entryValue is what an entry of a thing of a list is, to be said.
func entryValue(j *job.Job, i int, e job.Entry) (v message.Value, ok bool) {
	switch {
	case e.Number != nil:
		if mm := e.Number.At(j, i); mm != nil {
			return whole(unit.Value(*mm, e.Number.Kind), e.Number.Step), true
		}
	case e.Choice != nil:
		if k := slices.Index(e.Choice.Values, e.Choice.At(j, i)); k >= 0 {
			return message.Said(message.Of(e.Choice.Words[k])), true
		}
	}
	return nil, false
}

// whole is a value as the trade says it: a length in whole millimetres, unless it is one of those that
// are told apart more finely.
func whole(v message.Value, step float64) message.Value {
	if mm, ok := v.(message.Length); ok && step >= 1 {
		mm.Round = message.Whole
		return mm
	}
	return v
}

// wallArg is a wall by what it is called.
func wallArg(name string, r *job.Room, wall int) message.Arg {
	return r.Wall(name, wall)
}

// thingOf is the path of the thing that a statement is about.
func thingOf(key string) string {
	if l, i, _, ok := job.InList(key); ok {
		if l.Most == 1 {
			return l.Key
		}
		return fmt.Sprintf("%s[%d]", l.Key, i)
	}
	for _, t := range [...]string{"waste.exit", "waste.waypoints", "waste.pump", "floor.joists", "room.outline"} {
		if within(key, t) {
			return t
		}
	}
	if strings.HasPrefix(key, "waste.fittings[") || strings.HasPrefix(key, "room.walls[") {
		return key[:strings.IndexByte(key, ']')+1]
	}
	if strings.HasPrefix(key, "parts.") || strings.HasPrefix(key, "asBuilt.") {
		return key
	}
	first, _, _ := strings.Cut(key, ".")
	return first
}
