package message

// noLetter stands for a wall that the room has not.
const noLetter = "–"

// String is the letter, the same in all languages.
func (v Letter) String() string {
	const alphabet = 26
	if v < 1 {
		return noLetter
	}
	var out []byte
	for n := int(v); n > 0; n = (n - 1) / alphabet {
		out = append([]byte{byte('A' + (n-1)%alphabet)}, out...)
	}
	return string(out)
}

// String is the letter and the name behind it, the same in all languages.
func (v Called) String() string { return v.Letter.String() + " (" + v.Name + ")" }

// Corner is the corner at the end of a wall of a room of so many, by the wall's letter: it and the wall that the letters go on
// with, the first one after the last.
func (v Letter) Corner(walls int) Corner { return Corner{v, v%Letter(walls) + 1} }

// String is the corner's two letters; with a stroke between them where one is not single.
func (v Corner) String() string {
	one, other := v[0].String(), v[1].String()
	if len(one) > 1 || len(other) > 1 {
		return one + "/" + other
	}
	return one + other
}
