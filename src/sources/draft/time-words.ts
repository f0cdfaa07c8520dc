/** Names of columns of time, as `plainWords` makes them. */
export const timeNames =
  /\b(time|times|timestamp|datetime|date|day|zeit|zeitpunkt|uhrzeit|zeitstempel|datum|tag|heure|horodatage|temps(?! ?\d)|jour|hora|fecha|tiempo|elapsed|seconds?|secs?|minutes?|mins?|epoch|unix|utc|clock|at|when|when read|recorded|logged|duration|dauer|laufzeit|sekunden?|minuten?|duree|ecoule\w*|transcurrid\w*|duracion|segundos?|minutos?|ts|t)\b|^(?:s|ms|min)$/;

/** Names that say that the time counts from the start. */
export const elapsedNames =
  /\b(elapsed|since|seconds?|secs?|minutes?|mins?|run ?time|test time|duration|dauer|laufzeit|verstrichen\w*|sekunden?|minuten?|duree|ecoule\w*|transcurrid\w*|duracion|segundos?|minutos?|relative|rel)\b|^(?:s|ms|min)$/;

/** Names of a time zone. */
export const zoneNames = /\b(time ?zone|zeitzone|fuseau\w*|zona horaria|utc offset|tz)\b/;

/** Names of mere counters of rows. */
export const counterNames =
  /^(?:n|no|nr|num|number|index|idx|row|line|sample|record|rec|entry|seq\w*|count|counter|id|lfd nr|lfd|zeile|ligne|fila|muestra|messung|mesure|punkt|point)(?: ?(?:no|nr|num|number|nummer|id|index))?$|^$/;
