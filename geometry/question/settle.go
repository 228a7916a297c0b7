package question

import "underfall/geometry/message"

// Moved is an answer that gave way to another.
type Moved struct {
	At        Entry
	WasMM, MM float64
	because   message.Message
}

// Message says what moved, and why.
func (m Moved) Message() message.Message {
	return message.Of("question.moved", message.In("what", message.Of(m.At.Name())), m.At.length("was", m.WasMM), m.At.length("is", m.MM),
		message.In("why", m.because))
}

// Settle is the sheet with what was answered last kept, and what hangs on it moved the least that it
// takes: a door along its wall, a shower to its room. Where that does not help nothing is moved, and the
// problems say why the answer cannot be.
func (p Practice) Settle(s Sheet, last Entry) (settled Sheet, moved []Moved, problems []Problem) {
	settled = s
	for range Entries() {
		if problems = p.Check(settled); len(problems) == 0 {
			return settled, moved, nil
		}
		next := problems[0]
		least, _ := next.At.Bounds()
		was := settled.At(next.At)
		if next.At == "" || next.At == last || !was.Given || next.MostMM < least {
			break
		}
		settled = settled.With(next.At, Given(next.MostMM))
		moved = append(moved, Moved{next.At, was.MM, next.MostMM, next.What})
	}
	return s, nil, problems
}

// Name is the id of what the length is called.
func (e Entry) Name() message.ID { return message.ID("question.entry." + string(e)) }

// EntryIDs are the ids of the names of all lengths.
func EntryIDs() []message.ID { return message.Names(Entries()) }
