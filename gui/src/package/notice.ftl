<#-- The licences of what the package holds, by component; filled in by the licence plugin. -->
Purgewright contains the libraries below, unchanged, each under its own licence.
Purgewright itself is under the Apache License 2.0.
The Java runtime beside it is OpenJDK, under the GNU General Public License 2 with Classpath Exception; its notices lie in
lib/runtime/legal of the installed folder. The letters of drawings and documents are IBM Plex Sans, under the SIL Open Font License 1.1,
whose text lies beside them in purgewright.jar.

<#list dependencyMap as e>
<#assign project = e.getKey()/>
<#assign licenses = e.getValue()/>
<#if project.groupId != "purgewright">
- ${project.name} (${project.groupId}:${project.artifactId}:${project.version})
  <#list licenses as license>${license}<#if license_has_next>; </#if></#list>
</#if>
</#list>
