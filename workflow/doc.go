// Package workflow is the job: its steps, answers, findings and entries. It
// decides what may be written next and what became of it; it draws nothing and
// stores nothing.
//
// A job is the fold of its entries (Fold, Job.Apply). A Checklist of Step
// declarations decides on entries (Answer, Waive, Void) and looks at jobs
// (View). A Desk joins a checklist, a Store and a person: the screens, the
// answer sheets and whatever comes next all go through it.
package workflow
