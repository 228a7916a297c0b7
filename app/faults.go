package app

import (
	"errors"
	"fmt"
	"path/filepath"
	"sync"
	"time"

	"fyne.io/fyne/v2/dialog"
	"underfall/app/desk"
	"underfall/app/guard"
	"underfall/app/theme"
	"underfall/geometry/message"
)

// Parts of the window, as a fault in them is told.
const (
	partWindow  message.ID = "fault.window"
	partChange  message.ID = "fault.showing"
	partKeeping message.ID = "fault.keeping"
)

// faults is what becomes of a fault: the work is kept, a report is written, and
// the user is told.
type faults struct {
	desk    *desk.Desk
	folder  string // for unsaved work and reports; empty for none
	reports *guard.Reports
	// tell is given the sentence, on the goroutine of the fault; again when the
	// same fault was told before.
	tell func(sentence string, again bool)
	mu   sync.Mutex
	told map[string]bool // sentences
	last string          // sentence
}

func newFaults(d *desk.Desk, folder string, tell func(sentence string, again bool)) *faults {
	return &faults{desk: d, folder: folder, tell: tell, told: map[string]bool{},
		reports: guard.NewReports(filepath.Join(folder, guard.Folder))}
}

// lockedFor is how long a lock that the fault may have left behind is waited
// for.
const lockedFor = 3 * time.Second

// report deals with a fault. It may be called on any goroutine.
func (h *faults) report(f guard.Fault) {
	kept := theme.Word("fault.stopped", message.In("part", message.Of(f.Part))) + " "
	if err := guard.Within(lockedFor, h.keep); err != nil {
		kept += theme.Word("fault.work-not-kept", theme.Because("reason", err))
	} else {
		kept += theme.Word("app.your-work-is-kept")
	}
	sentence := kept + " "
	if path, err := h.write(f); err != nil {
		sentence += theme.Word("fault.no-report", theme.Because("reason", err))
	} else {
		sentence += theme.Word("fault.report", message.Name("file", path))
	}
	h.mu.Lock()
	again := h.told[sentence]
	h.told[sentence], h.last = true, sentence
	h.mu.Unlock()
	h.tell(sentence, again)
}

// keep keeps the work beside its file.
func (h *faults) keep() error {
	if h.folder == "" {
		return errors.New(theme.Word("app.there-is-no-folder-for-settings"))
	}
	return h.desk.Keep()
}

// write writes the report with the job as it stands.
func (h *faults) write(f guard.Fault) (path string, err error) {
	if h.folder == "" {
		return "", errors.New(theme.Word("app.there-is-no-folder-for-settings"))
	}
	var data []byte
	if err := guard.Within(lockedFor, func() (err error) {
		data, err = h.desk.Job().Marshal()
		return err
	}); err != nil {
		f.Doing += fmt.Sprintf(" (no job: %v)", err)
		data = nil
	}
	return h.reports.Write(f, data, time.Now())
}

// said is the sentence of the latest fault.
func (h *faults) said() string {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.last
}

// tellFault shows the sentence about a fault: in the line for messages, and the
// first time in a dialog that stays until it was read; the customer in the
// showroom is spared that until it closes.
func (w *mainWindow) tellFault(sentence string, again bool) {
	w.say(sentence, true)
	w.log("fault: %s", sentence)
	switch {
	case again:
	case w.showroom != nil:
		w.showroom.unread = append(w.showroom.unread, sentence)
	default:
		dialog.ShowError(errors.New(sentence), w.window)
	}
}
