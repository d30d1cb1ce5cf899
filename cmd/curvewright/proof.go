package main

import "curvewright/proof"

type proofCommand struct {
	Format string `enum:"text,json,markdown" default:"text" help:"text, json or markdown."`
}

// Run makes every check; status 1 if one fails.
func (c proofCommand) Run(p *program) error {
	verdicts := proof.Run(proof.All())
	var err error
	switch c.Format {
	case "json":
		err = proof.WriteJSON(p.out, verdicts)
	case "markdown":
		err = proof.WriteMarkdown(p.out, verdicts)
	default:
		err = proof.WriteText(p.out, verdicts)
	}
	if err != nil {
		return err
	}
	for _, v := range verdicts {
		if !v.Pass {
			return errQuiet
		}
	}
	return nil
}
