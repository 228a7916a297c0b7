package settle

import (
	"math"
	"reflect"
	"slices"
	"strings"

	"underfall/geometry/edit"
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
	lowered, keys := s.readingsLowered(keys)
	readOn, keys := s.readOn(keys)
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
		mine := s.differ(of[t])
		if shown := slices.DeleteFunc(slices.Clone(mine), func(key string) bool { return !s.shows(key) }); len(shown) > 0 {
			out = append(out, Moved{s.tell(t, shown), mine})
		}
	}
	return slices.Concat(s.lettersAnew(out), s.wallsAlong(), readOn, lowered, out, s.trimsLeft(), s.readingsOutside())
}

// lettersAnew tells that walls have other letters than before, as the first door is in another of them, unless what is told
// says so of a thing at one.
func (s *settler) lettersAnew(told []Moved) []Moved {
	was, is := &s.before.Room, &s.job.Room
	if len(was.Outline) != len(is.Outline) || len(is.Outline) == 0 {
		return nil
	}
	first := is.InOrder()[0]
	said := func(m Moved) bool { return m.What.ID == movedLettered || m.What.ID == movedLetteredAnd }
	if was.Letter(first) == is.Letter(first) || slices.ContainsFunc(told, said) {
		return nil
	}
	return []Moved{{What: message.Of("moved.letters", was.Wall("was", first), is.Wall("wall", first))}}
}

// The sentences that say of a thing at which wall it is now, by both of its letters.
const (
	movedLettered    message.ID = "moved.to-wall-lettered"
	movedLetteredAnd message.ID = "moved.to-wall-lettered-and"
)

// wallsAlong tells, of a wall whose length is stated, which others went along, that the room is measured from then on, and
// that the wall is drawn otherwise than it was read, where the other measures do not go with it.
func (s *settler) wallsAlong() (out []Moved) {
	side, one := s.side()
	was, is := &s.before.Room, &s.job.Room
	if !one || len(was.Outline) != len(is.Outline) {
		return nil
	}
	if !was.Measured() && is.Measured() {
		var read message.List
		for _, wall := range is.InOrder() {
			if _, taped := is.TapedAlong(wall); taped {
				read.Items = append(read.Items, message.Of("wall.called", message.Wall("wall", is.Letter(wall))))
			}
		}
		out = append(out, Moved{What: message.Of("moved.tape-begun", message.Arg{Name: "walls", Value: read})})
	}
	if i, taped := is.TapedAlong(side.Wall); taped {
		read, drawn := is.Tape.Lengths[i].LengthMM, is.WallLengthMM(side.Wall)
		if math.Abs(read-drawn) > job.AtWallMM {
			out = append(out, Moved{What: message.Of("moved.tape-shared", is.Wall("wall", side.Wall), message.Along("read", read),
				message.Along("drawn", unit.AsRead(drawn, s.job.Units)))})
		}
	}
	for _, wall := range is.InOrder() {
		if _, taped := is.TapedAlong(wall); taped || wall == side.Wall {
			continue
		}
		before, after := unit.AsRead(was.WallLengthMM(wall), s.job.Units), unit.AsRead(is.WallLengthMM(wall), s.job.Units)
		if math.Abs(before-after) > plan.HairMM {
			what := message.Of("moved.wall", is.Wall("wall", wall), message.Along("before", before), message.Along("after", after))
			out = append(out, Moved{What: what})
		}
	}
	return out
}

// side is the wall whose length the change states; false for any other change.
func (s *settler) side() (edit.Side, bool) {
	for _, key := range s.states {
		if side, is := edit.SideAt(key); is {
			return side, true
		}
	}
	return edit.Side{}, false
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
	in := func(j *job.Job) plan.Point {
		v, ok := at(j, key)
		if !ok || v.Int() < 0 || int(v.Int()) >= len(j.Room.Outline) {
			return plan.Point{}
		}
		return room(j.Room.Outline).inward(int(v.Int()))
	}
	return in(s.before).Dot(in(&s.job)) >= leastCos
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

// readingsLowered tells of the readings of the floor that went with a slab that is set down, and gives the paths that are left
// to be told.
func (s *settler) readingsLowered(keys []string) (out []Moved, rest []string) {
	by := s.job.SetDown() - s.before.SetDown()
	if by == 0 || len(s.before.SpotLevels) != len(s.job.SpotLevels) {
		return nil, keys
	}
	n := 0
	for i, r := range s.job.SpotLevels {
		if math.Abs(s.before.SpotLevels[i].LevelMM-r.LevelMM-by) < plan.HairMM {
			n++
		}
	}
	if n == 0 {
		return nil, keys
	}
	with, rest := parted(keys, func(key string) bool { return within(key, job.SpotLevelsKey) || within(key, job.ReadingsKey) })
	what := message.ID("moved.readings-lowered")
	if by < 0 {
		what = "moved.readings-raised"
	}
	return []Moved{{message.Of(what, message.No("n", n), message.MM("by", math.Abs(by))), with}}, rest
}

// parted are the paths that are taken out of some, and those that are left.
func parted(keys []string, take func(key string) bool) (taken, left []string) {
	for _, key := range keys {
		if take(key) {
			taken = append(taken, key)
		} else {
			left = append(left, key)
		}
	}
	return taken, left
}

// readOn tells what heights count as read on, where a change of the layers that were found has that be another, or lie otherwise over
// the structural floor; and gives the paths that are left to be told.
func (s *settler) readOn(keys []string) (out []Moved, rest []string) {
	was, is := &s.before.Floor, &s.job.Floor
	if s.stated(job.ReadOnKey) {
		return nil, keys
	}
	with, rest := parted(keys, func(key string) bool { return within(key, job.ReadOnKey) })
	before, under := was.ReadOverMM(false), is.ReadOverMM(false)
	var what message.Message
	switch another := was.ReadsOn() != is.ReadsOn(); {
	case another && len(is.Existing) == 0:
		what = message.Of("moved.read-on.none")
	case another && is.ReadsOn() == job.ReadOnStructure:
		what = message.Of("moved.read-on.structure")
	case another:
		what = message.Of("moved.read-on.kept", message.MM("under", under))
	case before != under:
		what = message.Of("moved.read-on.lies", message.MM("under", under), message.MM("before", before))
	default:
		return nil, rest
	}
	return []Moved{{what, with}}, rest
}

// readingsOutside tells of levels of the floor that the room no longer takes in, or that are stated where it does not.
func (s *settler) readingsOutside() (out []Moved) {
	old, now := room(s.before.Room.Outline), room(s.job.Room.Outline)
	same := len(s.before.SpotLevels) == len(s.job.SpotLevels)
	left := func(i int) bool { return same && s.changed("room.outline") && old.has(s.before.SpotLevels[i].At) }
	for i, r := range s.job.SpotLevels {
		if mm, in := now.clear(r.At); !in && mm > plan.HairMM && (!s.statedBefore(r.At) || left(i)) {
			out = append(out, Moved{What: message.Of("moved.reading-outside", message.No("n", i+1))})
		}
	}
	return out
}

// statedBefore tells whether a level of the floor was stated at a place before.
func (s *settler) statedBefore(at plan.Point) bool {
	return slices.ContainsFunc(s.before.SpotLevels, func(r job.SpotLevel) bool { return r.At == at })
}

// tell is the sentence about one thing.
func (s *settler) tell(t string, keys []string) message.Message {
	start := message.In("thing", s.named(t, true))
	switch {
	case t == "shower.head" && s.showerMoved():
		return message.Of("moved.head")
	case t == job.TurnsKey:
		return message.Of("moved.turns", start)
	case slices.Equal(keys, []string{supportsKey}) && len(s.before.Floor.Joists.SupportsMM) > 0 && len(s.job.Floor.Joists.SupportsMM) > 0:
		return s.tellSupport()
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
	case within(t, job.TrimsKey):
		if what := s.trimWent(t); what != "" {
			return message.Of("moved.trim-along", start, message.In("what", message.Of(what)), all)
		}
		return message.Of("moved.thing", start, all)
	case wall.IsZero() && s.statedSmaller(keys):
		return message.Of("moved.smaller-than-stated", start, all)
	case wall.IsZero():
		return message.Of("moved.thing", start, all)
	case len(changes) > 0 && wall.ID == movedLettered:
		return message.Of(movedLetteredAnd, append(wall.Args, all)...)
	case len(changes) > 0:
		return message.Of("moved.to-wall-and", append(wall.Args, all)...)
	}
	return wall
}

// statedSmaller tells whether a size of the shower that somebody has stated gave way.
func (s *settler) statedSmaller(keys []string) bool {
	was, is := &s.before.Shower, &s.job.Shower
	gaveWay := func(key string, wasMM, isMM float64) bool {
		return slices.Contains(keys, key) && isMM < wasMM && s.shows(key) && !s.before.StandingOf(key).Open()
	}
	return gaveWay("shower.widthMM", was.WidthMM, is.WidthMM) || gaveWay("shower.depthMM", was.DepthMM, is.DepthMM)
}

// toWall says at which wall a thing is now, by its index; by its letter of before too where the walls
// have other letters, as the first doorway is in another of them.
func (s *settler) toWall(start message.Arg, wall int) message.Message {
	was, is := s.before.Room.Letter(wall), s.job.Room.Letter(wall)
	if was != is && len(s.before.Room.Outline) == len(s.job.Room.Outline) {
		return message.Of(movedLettered, start, s.before.Room.Wall("was", wall), s.job.Room.Wall("wall", wall))
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
		s.job.Room.Wall("wall", wall))
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
		if nought := p.Nought(*j); !nought.IsZero() {
			return message.Said(nought), true
		}
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
		return numberOf(key, *x), true
	case float64:
		return numberOf(key, x), true
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

// numberOf is a number that a path leads to, to be said.
func numberOf(key string, v float64) message.Value { return whole(unit.Value(v, job.KindOf(key)), 1) }

// whole is a value as the trade says it: a length in whole millimetres, unless it is one of those that
// are told apart more finely.
func whole(v message.Value, step float64) message.Value {
	if mm, ok := v.(message.Length); ok && step >= 1 {
		mm.Round = message.Whole
		return mm
	}
	return v
}

// thingOf is the path of the thing that a statement is about.
func thingOf(key string) string {
	if l, i, _, ok := job.InList(key); ok {
		if l.Most == 1 {
			return l.Key
		}
		return job.Nth(l.Key, i)
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
