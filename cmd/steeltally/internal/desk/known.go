package desk

// Known is what the action with the caller's own key came to, where it was recorded
// before: after an error that left it open, a retry asks nothing a second time.
func (d *Desk) Known() (Done, bool, error) {
	events, err := d.book.Known(d.options.Ticket)
	if err != nil || len(events) == 0 {
		return Done{}, false, err
	}
	done := Done{Events: events}
	if done.Lines, err = d.linesOf(events); err != nil {
		return done, true, err
	}
	done.Back, err = d.takenBack(events)
	return done, true, err
}
