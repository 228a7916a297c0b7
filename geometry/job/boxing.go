package job

// Boxing is a box over the pipe where it lies bare along the room: sides and a lid of
// board, on the floor that the pipe lies on.
type Boxing struct {
	BoardMM float64 `json:"boardMM"` // its board, with what is on it
	GapMM   float64 `json:"gapMM"`   // room round the pipe and its sockets, inside
}

// UsualBoxing is of tile backer board, with room for clips. Common practice, no source.
func UsualBoxing() Boxing { return Boxing{BoardMM: 12, GapMM: 20} }
