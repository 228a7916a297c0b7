package command

import (
	"slices"
	"strconv"
	"strings"

	"underfall/geometry"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// cutRequest is a cut as the command line names it: what it goes through, and for a step which of
// the job's it is, counted from one.
type cutRequest struct {
	section.Cutting
	step int
}

// cutOf reads a cut: drain, run, way-in, door, step:N, points:X,Y,X,Y, pipe-level,
// boards-level, tile-level or level:MM, in millimetres.
func cutOf(text string) (c cutRequest, err error) {
	kind, rest, with := strings.Cut(text, ":")
	var numbers []float64
	for part := range strings.SplitSeq(rest, ",") {
		v, bad := strconv.ParseFloat(part, 64)
		if bad != nil && with {
			return c, message.Fail("cli.draw-cut-unknown", message.Name("given", text))
		}
		numbers = append(numbers, v)
	}
	switch {
	case !with && kind == "run":
		c.Of = section.CutPipe
	case !with && (kind == "drain" || kind == "way-in" || kind == "door"):
		c.Of = section.CuttingOf(kind)
	case with && kind == "step" && len(numbers) == 1 && numbers[0] == float64(int(numbers[0])):
		c.Of, c.step = section.CutStep, int(numbers[0])
	case with && kind == "points" && len(numbers) == 4:
		c.Of, c.From, c.To = section.CutPoints, plan.Point{numbers[0], numbers[1]}, plan.Point{numbers[2], numbers[3]}
	case !with && slices.Contains(section.LevelCuts(), section.CuttingOf(kind)):
		c.Of = section.CuttingOf(kind)
	case with && kind == "level" && len(numbers) == 1:
		c.Of, c.LevelMM = section.CutLevel, numbers[0]
	default:
		return c, message.Fail("cli.draw-cut-unknown", message.Name("given", text))
	}
	return c, nil
}

// in is the cut in a result.
func (c cutRequest) in(r geometry.Result) (section.Cutting, error) {
	if c.Of != section.CutStep {
		return c.Cutting, nil
	}
	steps := r.Steps()
	if c.step < 1 || c.step > len(steps) {
		return c.Cutting, message.Fail("cli.draw-no-step", message.No("given", c.step), message.N("n", len(steps)))
	}
	c.Step = steps[c.step-1].Where
	return c.Cutting, nil
}
