package start

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry/message"
	"underfall/geometry/question"
)

// water asks where it can go.
func (s *Sheet) water() fyne.CanvasObject {
	rows := container.NewVBox()
	shown := ""
	build := func() {
		walls := WallsAtShower(s.practice, s.shown)
		through, out := s.practice.Through(s.shown)
		answered := s.shown.Water.To == question.GoesOutThroughWall
		if out && answered && !slices.Contains(walls, through) {
			walls = append(walls, through)
		}
		key := ""
		for _, w := range walls {
			key += question.Letter(w)
		}
		if key != shown {
			shown = key
			rows.Objects = []fyne.CanvasObject{s.waterChoices(walls)}
			rows.Refresh()
		}
		assumed := question.Water{To: question.GoesOutThroughWall, Wall: through}
		unanswered := s.shown.Water.To == question.GoesAssumed && out
		for _, c := range s.outs {
			c.choice.chosen, c.choice.assumed = c.is(s.shown.Water), unanswered && c.water == assumed
			c.choice.Refresh()
		}
	}
	s.follow = append(s.follow, build)
	elsewhere := paragraph("", theme.TextCaption, theme.Caption)
	s.follow = append(s.follow, func() { s.tellElsewhere(elsewhere) })
	joins, place := s.joins(), s.pipePlace()
	h := s.heading("6", theme.Word("start.water"), theme.Word("start.on-plan-too"), func() bool {
		return s.shown.Water.To != question.GoesAssumed
	})
	return s.question(h, rows, elsewhere, joins, place)
}

// tellElsewhere says which walls the shower does not stand at, so that going out through them is not among the choices.
func (s *Sheet) tellElsewhere(note *control.Text) {
	var walls []message.Message
	for i := range s.practice.Outline(s.shown) {
		through := func(o wayOut) bool { return o.water.To == question.GoesOutThroughWall && o.water.Wall == i }
		if !slices.ContainsFunc(s.outs, through) {
			walls = append(walls, message.Text(question.Letter(i)))
		}
	}
	if note.Hidden = len(walls) == 0; !note.Hidden {
		note.SetText(theme.Word("start.not-at-shower", message.Arg{Name: "walls", Value: message.List{Items: walls}}))
	}
}

// wayOut is one of the ways out to choose from.
type wayOut struct {
	choice *choice
	water  question.Water
}

// is tells whether the way is the one of an answer.
func (w wayOut) is(a question.Water) bool {
	return a.To == w.water.To && (a.To != question.GoesOutThroughWall || a.Wall == w.water.Wall)
}

// waterChoices are the ways out through some walls, and the others.
func (s *Sheet) waterChoices(walls []int) fyne.CanvasObject {
	s.outs = nil
	flow := container.New(&flowing{gap: theme.BetweenTwo})
	var all []*choice
	add := func(c *choice, w question.Water) {
		s.outs = append(s.outs, wayOut{c, w})
		all = append(all, c)
		flow.Add(c)
	}
	set := func(w question.Water) func() {
		return func() {
			next := s.at
			next.Water.To, next.Water.Wall = w.To, w.Wall
			s.choose(next)
			s.showEnd()
		}
	}
	for i, wall := range walls {
		id := message.ID("start.through")
		if i == 0 {
			id = "start.out-through"
		}
		w := question.Water{To: question.GoesOutThroughWall, Wall: wall}
		add(wordChoice(s.o.Keys, theme.Word(id, message.Name("wall", question.Letter(wall))), set(w)), w)
	}
	for _, o := range []struct {
		id message.ID
		to question.GoesTo
	}{
		{"start.pipe-in-floor", question.GoesIntoPipe}, {"start.soil-stack", question.GoesIntoStack},
		{"start.not-known", question.GoesNotKnown},
	} {
		w := question.Water{To: o.to}
		add(wordChoice(s.o.Keys, theme.Word(o.id), set(w)), w)
	}
	among(all)
	return flow
}

// showEnd has the last question in sight with what else is asked of it, which stands below.
func (s *Sheet) showEnd() {
	s.scroll.Refresh()
	s.scroll.ScrollToBottom()
}

// joins asks what the water joins outside of its wall, and where.
func (s *Sheet) joins() fyne.CanvasObject {
	far := s.length(question.JoinFar, 80, theme.Word("start.from-wall"))
	grating := s.length(question.Grating, 80, theme.Word("start.grating-deep"))
	kinds := []question.Joins{question.JoinsGully, question.JoinsStack, question.JoinsDrain, question.JoinsNotKnown}
	var all []*choice
	row := container.New(&flowing{gap: theme.BetweenTwo})
	for _, k := range kinds {
		c := wordChoice(s.o.Keys, theme.Word(joinsName(k)), func() {
			next := s.at
			next.Water.Joins = k
			s.choose(next)
			s.showEnd()
		})
		c.narrow = true
		all = append(all, c)
		row.Add(c)
	}
	among(all)
	asked := line(theme.Word("start.joins"), theme.TextCaption, theme.Caption)
	box := stacked(theme.Space1, asked, row, container.NewHBox(far.object, grating.object))
	s.follow = append(s.follow, func() {
		for i, c := range all {
			c.chosen = s.shown.Water.Joins == kinds[i]
			c.Refresh()
		}
		box.Hidden = s.shown.Water.To != question.GoesOutThroughWall
		far.object.Hidden = !s.shown.Asked(question.JoinFar)
		grating.object.Hidden = !s.shown.Asked(question.Grating)
		box.Refresh()
	})
	return box
}

func joinsName(k question.Joins) message.ID {
	switch k {
	case question.JoinsGully:
		return "start.joins-gully"
	case question.JoinsStack:
		return "start.joins-stack"
	case question.JoinsDrain:
		return "start.joins-drain"
	}
	return "start.not-known"
}

// pipePlace asks where the pipe in the floor or the stack is, and how deep the pipe lies, or the branch that stands ready.
func (s *Sheet) pipePlace() fyne.CanvasObject {
	along := s.length(question.WaterAlong, 88, theme.Word("start.pipe-along"))
	away := s.length(question.WaterAway, 88, theme.Word("start.pipe-away"))
	deep := s.length(question.PipeDeep, 88, theme.Word("start.pipe-deep"))
	branch := s.length(question.BranchDeep, 88, theme.Word("start.branch-deep"))
	box := stacked(theme.Space1, container.NewHBox(along.object, away.object), deep.object, branch.object)
	s.follow = append(s.follow, func() {
		box.Hidden = !s.shown.Asked(question.WaterAlong)
		deep.object.Hidden = !s.shown.Asked(question.PipeDeep)
		branch.object.Hidden = !s.shown.Asked(question.BranchDeep)
		box.Refresh()
	})
	return box
}
