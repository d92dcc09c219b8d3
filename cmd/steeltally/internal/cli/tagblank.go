package cli

import "steeltally/cmd/steeltally/internal/desk"

// blankTags keeps new numbers and brings out tags that no piece has yet.
func (a *app) blankTags(ask tagAsk, args []string) error {
	if len(args) != 1 {
		return usage("blank tags for what? steeltally tag --blank 48 runner, or holder")
	}
	return a.withDesk(func(d *desk.Desk) error {
		numbers, done, err := d.ReserveBlank(args[0], ask.blank)
		if err != nil {
			return err
		}
		job := ask.job(numbers, ask.template)
		job.Blank, job.Progress = true, a.progress("tags")
		printed, err := d.PrintAfter(job)
		if err != nil {
			a.voice.doneBefore(done, answer{Numbers: numbers})
			return err
		}
		done, printed.Notices = done.With(printed.Notices), nil
		if err := a.voice.done(done, answer{Numbers: numbers}, printed); err != nil {
			return err
		}
		a.sayTags(printed)
		return nil
	})
}
