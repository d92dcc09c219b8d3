package cli

import "steeltally/cmd/steeltally/internal/jig"

// sayReply tells what came of a line.
func (a *app) sayReply(reply jig.Reply) {
	for _, text := range reply.Said {
		a.voice.say("%s", text)
	}
	if reply.Card != nil {
		a.sayCard(*reply.Card)
	}
	for _, done := range reply.Done {
		a.voice.done(done)
	}
	if reply.Rescue != nil {
		a.sayRescue(*reply.Rescue)
	}
	a.voice.notices(reply.Notices)
}

// sayQuestion writes a question with its choices; the answer is typed behind it.
func (a *app) sayQuestion(q jig.Question) {
	for i, choice := range q.Choices {
		a.voice.ask("%d  %s\n", i+1, choice)
	}
	a.voice.ask("%s ", q.Text)
}
