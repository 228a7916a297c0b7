package job

import (
	"fmt"
	"reflect"
	"slices"

	"underfall/geometry/message"
)

// Picture is how the finished room is shown: in which light, wet or dry, and what the user had otherwise of what rules put into it.
type Picture struct {
	Light
	// Wet tells that the shower's floor is shown as if it had just been used.
	Wet    bool    `json:"wet,omitempty"`
	Things []Thing `json:"things,omitempty"`
}

// Light is the light of a picture.
type Light struct {
	Kind LightKind `json:"light"`
	// Hour is that of the day by the sun, which is highest at 12; it counts by day alone.
	Hour float64 `json:"hour"`
}

// LightKind is where the light comes from.
type LightKind string

// The kinds of light.
const (
	LightDay      LightKind = "day"      // sky and sun
	LightOvercast LightKind = "overcast" // a sky of clouds
	LightEvening  LightKind = "evening"  // lamps, dusk outside
)

// The hours that a day may be shown at: the sun is up where days and nights are as long.
const (
	FirstHour = 7
	LastHour  = 17
	usualHour = 11
)

// LightKinds are the kinds of light.
func LightKinds() Enum[LightKind] {
	return enum("light", LightDay, LightDay, LightOvercast, LightEvening)
}

// UsualPicture is how a room is shown where nothing is stated.
func UsualPicture() Picture { return Picture{Light: Light{Kind: LightKinds().Usual, Hour: usualHour}} }

// Shown is how the finished room is shown, as stated or as is usual.
func (j Job) Shown() Picture {
	if j.Picture != nil {
		return *j.Picture
	}
	return UsualPicture()
}

// BuiltAs tells whether a job is built as another is: they differ in nothing but how the finished room is shown.
func (j Job) BuiltAs(other Job) bool {
	j.Picture, other.Picture = nil, nil
	return reflect.DeepEqual(j, other)
}

// Lit is the light of the picture.
func (j Job) Lit() Light { return j.Shown().Light }

// ThingKind is a thing that stands in a finished room by a rule, without being stated.
type ThingKind string

// The things that rules put into a room, at most one of each.
const (
	ThingVanity   ThingKind = "vanity"
	ThingMirror   ThingKind = "mirror" // over a basin, with which it moves
	ThingRadiator ThingKind = "radiator"
	ThingTowels   ThingKind = "towels"
	ThingMat      ThingKind = "mat"
	ThingStool    ThingKind = "stool"
	ThingPlant    ThingKind = "plant"
	ThingPendant  ThingKind = "pendant"
	ThingVase     ThingKind = "vase"
	ThingNiche    ThingKind = "niche"
)

// thingList is what the list of things is called in the ids of their words.
const thingList = "thing"

// ThingKinds are the things.
func ThingKinds() Enum[ThingKind] {
	return enum(thingList, ThingVanity,
		ThingVanity, ThingMirror, ThingRadiator, ThingTowels, ThingMat, ThingStool, ThingPlant, ThingPendant, ThingVase, ThingNiche)
}

// Word is what it is called.
func (k ThingKind) Word() message.ID {
	id, _ := ThingKinds().wordOf(k) // a job has no other
	return id
}

// Movable tells whether it can be moved by itself: a mirror hangs over its basin.
func (k ThingKind) Movable() bool { return k != ThingMirror }

// Thing is what the user had otherwise about a thing in the room.
type Thing struct {
	Kind ThingKind `json:"kind"`
	// Cleared tells that it is not there.
	Cleared bool `json:"cleared,omitempty"`
	// Other tells that the other of its two designs stands there.
	Other bool `json:"other,omitempty"`
	// AlongMM is how far it is moved along what it stands at, to the right of who looks at it.
	AlongMM float64 `json:"alongMM,omitempty"`
}

// Had is what the user had otherwise about a kind of thing; nothing for one that is left as rules put it.
func (p Picture) Had(k ThingKind) Thing {
	if i := slices.IndexFunc(p.Things, func(t Thing) bool { return t.Kind == k }); i >= 0 {
		return p.Things[i]
	}
	return Thing{Kind: k}
}

// With is the picture with something had otherwise about a kind of thing.
func (p Picture) With(t Thing) Picture {
	p.Things = slices.DeleteFunc(slices.Clone(p.Things), func(had Thing) bool { return had.Kind == t.Kind })
	if t != (Thing{Kind: t.Kind}) {
		p.Things = append(p.Things, t)
	}
	return p
}

// picture checks how the room is shown.
func (v *validator) picture(p *Picture) {
	if p == nil {
		return
	}
	checkEnum(v, "picture.light", p.Kind, LightKinds())
	if !(p.Hour >= FirstHour && p.Hour <= LastHour) {
		v.add("picture.hour", "problem.hour", message.No("first", FirstHour), message.No("last", LastHour))
	}
	seen := map[ThingKind]bool{}
	for i, t := range p.Things {
		key := fmt.Sprintf("picture.things[%d]", i)
		checkEnum(v, key+".kind", t.Kind, ThingKinds())
		v.within(key+".alongMM", t.AlongMM, -farthestMM, farthestMM)
		if seen[t.Kind] {
			v.add(key+".kind", "problem.thing-twice", message.In("thing", message.Of(Choice[ThingKind]{t.Kind, thingList}.Word())))
		}
		seen[t.Kind] = true
	}
}
