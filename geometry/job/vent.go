package job

// StackAsVent is the stack that the run joins, of a length, where its vent is stated to
// stand: it goes on up as the vent, and no other pipe does.
func (j *Job) StackAsVent(runLengthMM float64) (s Stack, ok bool) {
	e := j.Waste.Exit
	if j.Waste.Vent == nil || e.Kind != ExitStack || e.Stack >= len(j.Room.Stacks) {
		return s, false
	}
	s = j.Room.Stacks[e.Stack]
	return s, j.Waste.Vent.AtMM >= runLengthMM-s.OutsideMM
}
