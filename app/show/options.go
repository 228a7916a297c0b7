package show

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"
	"underfall/app/theme"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/viewer"
)

// mostKept is how many showers are kept to compare with that which is changed.
const mostKept = viewer.Slots - 1

// keep keeps the shower as it is, on the right of a line that can be dragged, while the left goes on changing.
func (s *Room) keep() {
	r := s.asks.Result()
	s.kept = append(s.kept, &r)
	s.Build()
}

// drop keeps one no longer.
func (s *Room) drop(i int) {
	s.kept = slices.Delete(s.kept, i, i+1)
	s.Build()
}

// take has one that was kept be the shower that is changed, in its light, and keeps in its place what that was.
func (s *Room) take(i int) {
	to, now := s.kept[i].Stated.Clone(), s.asks.Result()
	s.kept[i] = &now
	s.do(edit.Of(message.Of("edit.shower-look"), func(j *job.Job) {
		to.State, to.Name = j.State, j.Name
		*j = to
	}))
}

// compareControls are for comparing, for the picture that the customer takes home, and for leaving. What was kept stands under the
// picture, so that nothing beside it moves from under a finger.
func (s *Room) compareControls(j job.Job) {
	says := s.sides(&j)
	s.picture.Compare(slices.Clone(s.kept), says)
	s.bar.Objects = nil
	for i := range s.kept {
		text := widget.NewLabel(says[1+i])
		text.Truncation = fyne.TextTruncateEllipsis
		take, drop := newBig(theme.Word("showroom.take"), false, func() { s.take(i) }), newBig("×", false, func() { s.drop(i) })
		inMiddle := container.New(layout.NewCustomPaddedVBoxLayout(0), layout.NewSpacer(), text, layout.NewSpacer())
		s.bar.Add(container.NewBorder(nil, nil, nil, container.NewHBox(take, drop), inMiddle))
	}
	s.bar.Refresh()
	label, keep := theme.Word("showroom.keep-to-compare"), s.keep
	if len(s.kept) == mostKept {
		keep = nil
	}
	rows := container.NewVBox()
	if s.asks.Drawn != nil {
		rows.Add(s.asks.Drawn)
	}
	rows.Add(newBig(label, false, keep))
	leave, save := newBig(theme.Word("app.close"), false, s.asks.Leave), theme.Word("tool.picture")
	if len(s.kept) > 0 {
		save = theme.Word("showroom.save-now") // of those that stand beside each other that which is changed
	}
	rows.Add(container.NewBorder(nil, nil, nil, leave, newBig(save, false, s.asks.Save)))
	s.foot.Objects = []fyne.CanvasObject{rows}
	s.foot.Refresh()
}

// sides say what stands beside each other, the shower that is changed first: which it is, and what of it is otherwise elsewhere.
func (s *Room) sides(now *job.Job) []string {
	says := []string{theme.Word("showroom.now")}
	all := [][]string{s.aspects(now)}
	for i, r := range s.kept {
		says = append(says, theme.Word("showroom.kept", message.No("n", i+1)))
		all = append(all, s.aspects(&r.Stated))
	}
	for i := range all {
		var differs []string
		for k, what := range all[i] {
			if slices.ContainsFunc(all, func(other []string) bool { return other[k] != what }) {
				differs = append(differs, what)
			}
		}
		says[i] = strings.Join(append([]string{says[i]}, differs...), " · ")
	}
	return says
}

// aspects are what can be chosen of a shower here, in words, as it is in a job.
func (s *Room) aspects(j *job.Job) []string {
	var all []message.Message
	everywhere := func(of func(job.Finish) []message.Message) {
		all = append(all, of(j.Layers.Shower)...)
		for _, m := range of(j.Layers.Room) {
			all = append(all, message.Of("showroom.of-room", message.In("tile", m)))
		}
		for _, m := range of(j.Layers.Wall) {
			all = append(all, message.Of("showroom.of-walls", message.In("tile", m)))
		}
	}
	everywhere(func(f job.Finish) []message.Message {
		return []message.Message{called(job.ColourWord, f.Colour), wordOf(job.Surfaces(), f.Surface), wordOf(job.Bonds(), f.Bond)}
	})
	everywhere(func(f job.Finish) []message.Message {
		return []message.Message{message.Of("showroom.of-joints", message.In("colour", called(job.GroutWord, f.GroutColour)))}
	})
	all = append(all, wordOf(job.CoverKinds(), j.Style.Cover), wordOf(job.MetalKinds(), j.Style.Metal), glassOf(j), sizeOf(j))
	light := wordOf(job.LightKinds(), j.Lit().Kind)
	if j.Lit().Kind == job.LightDay {
		light = message.Of("showroom.light-at", message.In("light", light), hour(*j))
	}
	wet := message.Of("showroom.dry")
	if j.Shown().Wet {
		wet = message.Of("showroom.wet")
	}
	all = append(all, light, wet)
	said := make([]string, len(all))
	for i, m := range all {
		said[i] = theme.Say(m, j.Units)
	}
	return said
}

// called is the word for a colour, or the colour as it is written where there is none.
func called(word func(string) (message.Message, bool), colour string) message.Message {
	if m, ok := word(colour); ok {
		return m
	}
	return message.Text(colour)
}

// wordOf is what a value of a list is called.
func wordOf[T ~string](e job.Enum[T], v T) message.Message {
	for _, o := range e.Options() {
		if o.Value == string(v) {
			return o.Word
		}
	}
	return message.Text(string(v))
}

// sizeOf is how large a job's shower is.
func sizeOf(j *job.Job) message.Message {
	return message.Of("showroom.size-now", message.Along("width", j.Shower.WidthMM), message.Along("depth", j.Shower.DepthMM))
}

// glassOf is which glass a job's shower has, by the first of its screens.
func glassOf(j *job.Job) message.Message {
	if len(j.Shower.Screens) == 0 {
		return message.Of("showroom.glass-none-said")
	}
	return wordOf(job.ScreenKinds(), j.Shower.Screens[0].Kind)
}
