package sheet

import (
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/unknown"
)

// open is what nobody has stated, to be ticked off before work begins: what is assumed or not known with what stands in for it, and a
// floor that was read nowhere; each with how it is found out and room for what was found. It is nothing where all is stated.
func (m *maker) open() []block {
	var rows [][]string
	said := map[string]bool{} // cautions are said once
	add := func(what, how message.Message, cautions []message.Message) {
		look := m.say.Say(how)
		for _, c := range cautions {
			if says := m.say.Say(c); !said[says] {
				said[says], look = true, look+" "+says
			}
		}
		rows = append(rows, []string{"", m.say.Say(what), look, ""})
	}
	j := &m.r.Settled
	for _, s := range [...]struct {
		of job.Standing
		as message.ID
	}{{job.NotKnown, "sheet.not-known"}, {job.Assumed, "sheet.assumed"}} {
		for _, key := range j.StandingUsed(s.of) {
			how, cautions := unknown.HowTo(key, j.PlaceOf(key))
			add(message.Of(s.as, message.In("what", j.Told(key))), how, cautions)
		}
	}
	if len(j.SpotLevels) == 0 {
		add(message.Of("sheet.floor-not-read"), message.Of("sheet.floor-to-read"), nil)
	}
	const boxShare = 0.5
	columns := []tableColumn{{share: boxShare}, m.column("sheet.column.taken", 2.8), m.column("sheet.column.look", 5),
		m.column("sheet.column.found", 1.4)}
	blocks := table(m.to, columns, rows, m.wide)
	if len(blocks) == 0 {
		return nil
	}
	for i := range blocks[1:] {
		blocks[i+1] = boxed(blocks[i+1])
	}
	return append(m.heading(m.say.Text("sheet.open")), blocks...)
}
