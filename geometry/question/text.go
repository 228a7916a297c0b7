package question

import "encoding/json"

// Text is the answers as text, to be read again by ReadSheet. What was said besides the questions is not
// in it.
func (s Sheet) Text() string {
	text, err := json.Marshal(s)
	if err != nil {
		return "" // no answer is such a number
	}
	return string(text)
}

// ReadSheet reads answers that were written by Text; ok is false where there are none that make sense.
func ReadSheet(text string) (s Sheet, ok bool) {
	if json.Unmarshal([]byte(text), &s) != nil || s.Region == "" {
		return Sheet{}, false
	}
	if n := s.Room.Drawn.N; n < 0 || n > MostWalls || s.Room.Shape > WallByWall || s.Room.Shape == WallByWall && n < 3 {
		return Sheet{}, false
	}
	if s.Water.Wall < 0 || s.Water.Wall >= MostWalls || s.Shower.Wall < 0 || s.Shower.Wall >= MostWalls {
		return Sheet{}, false
	}
	return s, true
}
