import type { CoachReport, CoachTopic, TopicPair } from '../pages/coach-data.ts';
import { coachClosing, coachLeadText, pairText, savesText, topicText, wellText } from '../pages/coach-text.ts';
import { trainingText } from '../pages/change-text.ts';
import { dayText } from '../pages/day-text.ts';
import { leadSentences } from '../pages/lead-sentences.ts';
import { namedId } from '../pages/named-id.ts';
import { mostText } from '../pages/standing-out-text.ts';
import { sparkline } from './sparkline.ts';
import { textWidth, wrappedText } from './wrapped-text.ts';

const findingLength = 160;
const leastShownPa = 0.1;

/** A coaching sheet for a terminal. */
export function coachText(report: CoachReport): string {
  return [
    ...wrappedText(coachLeadText(report)),
    '',
    ...(report.topics.length === 0
      ? [
          'What to work on',
          ...wrappedText(
            'Nothing: in no skill was more found than others’ jobs lead to expect, or too few jobs could be judged to tell.',
            '  ',
          ),
          '',
        ]
      : report.topics.flatMap((topic, at) => [...topicLines(topic, at + 1, report), ''])),
    'What is going well',
    ...(report.goingWell.length === 0
      ? wrappedText('In no skill was surely less found than is to be expected of such jobs.', '  ')
      : report.goingWell.flatMap((well) => wrappedText(wellText(well), '  '))),
    ...(report.trainings.length === 0
      ? []
      : ['', 'Trainings', ...report.trainings.flatMap((training) => wrappedText(trainingText(training), '  '))]),
    '',
    ...wrappedText(coachClosing),
  ].join('\n');
}

function topicLines(topic: CoachTopic, place: number, report: CoachReport): string[] {
  const { skill, practise, jobs, pair } = topic;
  const [most, saves] = [mostText(topic, String), savesText(topic, report)];
  return [
    `${place}. ${skill.title}`,
    ...topicText(topic).flatMap((text) => wrappedText(text, '   ')),
    ...(saves === '' ? [] : wrappedText(saves, '   ')),
    ...(most === '' ? [] : wrappedText(most, '   ')),
    '   What to practise',
    ...practise.flatMap(({ checkId, question, teach }) => wrappedText(`${checkId}: ${question} ${teach}`, '     ')),
    ...(jobs.length === 0 ? [] : ['   Jobs that show it']),
    ...jobs.flatMap(({ jobId, day, technician, checkId, outcome, text }) =>
      wrappedText(
        `${namedId('job', jobId)}, ${dayText(day)}${report.who.kind === 'crew' && technician !== null ? `, ${technician.name}` : ''}: ${outcome === 'missing' ? 'no log' : `${checkId} ${outcome}. ${leadSentences(text, findingLength)}`}`,
        '     ',
      ),
    ),
    ...(pair === null
      ? []
      : ['   Beside one without it', ...wrappedText(pairText(pair, report.who), '     '), ...pairLines(pair)]),
  ];
}

/** Both curves over the same time; a weigh-in has its own page. */
function pairLines({ shown, ownJobId, goodJobId }: TopicPair): string[] {
  if (shown.quantity === 'charge') return [];
  const width = Math.min(64, textWidth() - 24);
  const endS = Math.max(shown.own.elapsedS.at(-1) ?? 0, shown.good.elapsedS.at(-1) ?? 0);
  const line = (name: string, { elapsedS, values }: (typeof shown)['own']): string => {
    const levels = values.map((value) =>
      value === null ? Number.NaN : shown.quantity === 'vacuum' ? Math.log(Math.max(value, leastShownPa)) : value,
    );
    // The last reading of the longer one ends both lines.
    return `     ${name.padEnd(14)} ${sparkline([...elapsedS, endS], [...levels, Number.NaN], width)}`;
  };
  const words = {
    vacuum: 'vacuum, log scale',
    pressure: 'pressure test',
    superheat: 'superheat',
    subcooling: 'subcooling',
  };
  return [
    `     ${words[shown.quantity]}, each between its own lowest and highest`,
    line(ownJobId, shown.own),
    line(goodJobId, shown.good),
  ];
}
