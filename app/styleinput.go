package app

import (
	"underfall/geometry/job"
)

// tileColours are the colours to choose tiles from, with names of our own.
func tileColours() []struct{ hex, name string } {
	return []struct{ hex, name string }{
		{"#f1eee8", "Chalk"}, {"#e4ded4", "Oat"}, {"#d2c6b4", "Sand"}, {"#b7a996", "Clay"}, {"#a07f66", "Terracotta"}, {"#8d9a8c", "Lichen"},
		{"#5d7673", "Lagoon"}, {"#3f5c54", "Fir"}, {"#6d7f86", "Rain"}, {"#40525f", "Slate blue"}, {"#77736d", "Pebble"}, {"#3b3a3a", "Basalt"},
	}
}

// The choices of style: values as in the job, names in the words of the window.

func bondValues() []string {
	return []string{"stack", "half", "third", "herringbone", "hexagon"}
}

func bondNames() []string {
	return []string{"Straight joints", "Half offset", "Third offset", "Herringbone", "Hexagons"}
}

func surfaceValues() []string {
	return []string{"plain", "stone", "terrazzo"}
}

func surfaceNames() []string {
	return []string{"Plain", "Stone", "Terrazzo"}
}

func sheenValues() []string {
	return []string{"matt", "satin", "gloss"}
}

func sheenNames() []string {
	return []string{"Matt", "Satin", "Gloss"}
}

func metalValues() []string {
	return []string{"steel", "chrome", "brass", "black"}
}

func metalNames() []string {
	return []string{"Brushed steel", "Chrome", "Brass", "Black"}
}

func coverValues() []string {
	return []string{"slotted", "tile-insert"}
}

func coverNames() []string {
	return []string{"Slotted metal", "With the floor's tile"}
}

// or is a value, or what an empty one means.
func or(value, usual string) string {
	if value == "" {
		return usual
	}
	return value
}

// styleChoices are the fields for what the customer sees.
func (in *inputs) styleChoices() []row {
	var hexes, names []string
	for _, c := range tileColours() {
		hexes, names = append(hexes, c.hex), append(names, c.name)
	}
	rows := []row{
		in.choice("Metal", metalValues(), metalNames(), func(j job.Job) string { return or(string(j.Style.Metal), "steel") },
			func(j *job.Job, s string) { j.Style.Metal = job.MetalKind(s) }, nil),
		in.choice("Drain cover", coverValues(), coverNames(), func(j job.Job) string { return or(string(j.Style.Cover), "slotted") },
			func(j *job.Job, s string) { j.Style.Cover = job.CoverKind(s) }, nil),
		newCheckRow("Glass screen in the picture", func(j job.Job) bool { return j.Style.Screen },
			func(j job.Job, on bool) job.Job { j.Style.Screen = on; return j }, nil, in.edit),
	}
	for _, f := range []struct {
		label  string
		finish func(*job.Job) *job.Finish
	}{{"Shower", func(j *job.Job) *job.Finish { return &j.Layers.Shower }}, {"Room", func(j *job.Job) *job.Finish { return &j.Layers.Room }}, {"Wall", func(j *job.Job) *job.Finish { return &j.Layers.Wall }}} {
		finish := f.finish
		rows = append(rows,
			in.choice(f.label+" colour", hexes, names, func(j job.Job) string { return finish(&j).Colour }, func(j *job.Job, s string) { finish(j).Colour = s }, nil),
			in.choice(f.label+" bond", bondValues(), bondNames(), func(j job.Job) string { return or(string(finish(&j).Bond), "stack") }, func(j *job.Job, s string) { finish(j).Bond = job.Bond(s) }, nil),
			in.choice(f.label+" surface", surfaceValues(), surfaceNames(), func(j job.Job) string { return or(string(finish(&j).Surface), "plain") }, func(j *job.Job, s string) { finish(j).Surface = job.Surface(s) }, nil),
			in.choice(f.label+" sheen", sheenValues(), sheenNames(), func(j job.Job) string { return or(string(finish(&j).Sheen), "satin") }, func(j *job.Job, s string) { finish(j).Sheen = job.Sheen(s) }, nil))
	}
	return rows
}
